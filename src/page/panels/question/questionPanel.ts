import { questionWords } from "../../../words/questionWords.js";
import { el, fill } from "../../widgets/dom.js";
import { glued } from "../../widgets/typeset.js";
import { type Panel, reportOf, type View } from "../view.js";

/** What is to be decided. */
export function questionPanel(view: View): Panel {
  const text = el("div", { class: "question" });
  const update = () => {
    const lines = questionWords(view.bench.rig, reportOf(view));
    fill(text, ...lines.map((line) => el("p", {}, glued(line))));
  };
  update();
  return {
    children: [text],
    update(change) {
      if (change === "report") update();
    },
  };
}
