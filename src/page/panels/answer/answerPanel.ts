import { type AnswerWords, answerWords } from "../../../words/answerWords.js";
import type { OverTakes } from "../../contract/pageData.js";
import { el, fill } from "../../widgets/dom.js";
import { glued } from "../../widgets/typeset.js";
import { type Panel, reportOf, type View } from "../view.js";

/** Which wiring to build and why: its first lines, the rest folded away; in the player's view all under one fold. */
export function answerPanel(view: View): Panel {
  const overTakes = el("div", { class: "answer" });
  const text = el("div", { class: "answer" });
  const inWhy = el("div", {});
  const why = folded("in-short", "Why, what to buy, how to set it", inWhy);
  const update = () => {
    const words = answerWords(reportOf(view));
    // It was worked out for the rig as it came.
    const over = view.bench.desk.isAsItCame ? (view.data.overTakes ?? null) : null;
    overTakes.hidden = over === null;
    if (over)
      fill(
        overTakes,
        el("h3", {}, "Over all takes"),
        ...leadLines(over.says, over.next),
        el("h3", { class: "in-full" }, "On the take that is heard"),
      );
    const own = leadLines(words.lead, words.next);
    if (over) for (const line of own) line.classList.add("in-full");
    fill(
      text,
      ...own,
      ...words.parts.map(({ heading, items }) => folded("in-full", heading, list(items))),
      why,
    );
    fill(
      inWhy,
      ...whyParts(words, over, view.bench.takeName).flatMap(({ heading, items }) => [
        el("h3", {}, heading),
        list(items),
      ]),
    );
  };
  update();
  return {
    children: [overTakes, text],
    update(change) {
      if (change === "report") update();
    },
  };
}

/** In the player's view the next best is a choice to hear, and what it is worth stands under the fold. */
const leadLines = (lines: readonly string[], next: string | null): readonly HTMLElement[] =>
  lines.map((line, n) =>
    el("p", { class: n === 0 ? "lead" : line === next ? "in-full" : null }, glued(line)),
  );

function whyParts(
  { lead, next, parts }: AnswerWords,
  over: OverTakes | null,
  take: string,
): AnswerWords["parts"] {
  const second = over ? over.next : next;
  return [
    ...(second === null ? [] : [{ heading: "If not that", items: [second] }]),
    ...(over ? [{ heading: `On ${take} alone`, items: lead }] : []),
    ...parts,
  ];
}

const list = (items: readonly string[]): HTMLElement =>
  el("ul", {}, ...items.map((item) => el("li", {}, glued(item))));

const folded = (look: string, summary: string, ...inside: readonly HTMLElement[]): HTMLElement =>
  el("details", { class: look }, el("summary", {}, summary), ...inside);
