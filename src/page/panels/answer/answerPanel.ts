import { answerWords } from "../../../words/answerWords.js";
import { el, fill } from "../../widgets/dom.js";
import { type Panel, reportOf, type View } from "../view.js";

/** Which wiring to build and why: its first lines, the rest folded away. */
export function answerPanel(view: View): Panel {
  const text = el("div", { class: "answer" });
  const lines = view.data.overTakes ?? [];
  const overTakes =
    lines.length === 0
      ? []
      : [
          el("h3", {}, "Over all takes"),
          ...lines.map((line) => el("p", {}, line)),
          el("h3", {}, "On the take that is heard"),
        ];
  const update = () => {
    const { lead, parts } = answerWords(reportOf(view));
    fill(
      text,
      ...lead.map((line, n) => el("p", n === 0 ? { class: "lead" } : {}, line)),
      ...parts.map(({ heading, items }) =>
        el(
          "details",
          {},
          el("summary", {}, heading),
          el("ul", {}, ...items.map((item) => el("li", {}, item))),
        ),
      ),
    );
  };
  update();
  return {
    children: [...overTakes, text],
    update(change) {
      if (change === "report") update();
    },
  };
}
