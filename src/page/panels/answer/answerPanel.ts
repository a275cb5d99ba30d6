import { answerWords } from "../../../words/answerWords.js";
import { el, fill } from "../../widgets/dom.js";
import { type Panel, reportOf, type View } from "../view.js";

/** Which wiring to build and why: its first lines, the rest folded away. */
export function answerPanel(view: View): Panel {
  const text = el("div", { class: "answer" });
  const overTakes = (view.data.overTakes ?? []).map((line) => el("p", {}, line));
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
