import { layoutWiring } from "../../../rig/drawing/layout.js";
import type { BuildSheet } from "../../../rig/wiring/buildSheet.js";
import type { Wiring } from "../../../rig/wiring/wiring.js";
import { count } from "../../../text/numbers.js";
import { scroller, table } from "../../widgets/dataTable.js";
import { el } from "../../widgets/dom.js";
import { decimal, percent, withUnit } from "../../widgets/typeset.js";
import { wiringDiagram } from "../../widgets/wiringDiagram.js";
import type { BuildableRouting } from "../view.js";
import { sheetNeeds } from "./sheetNeeds.js";

interface SheetFacts {
  readonly rigName: string;
  readonly takeName: string;
  readonly isReference: boolean;
  readonly routing: BuildableRouting;
  /** Null where the rig has become another meanwhile. */
  readonly wiring: Wiring | null;
}

/** The bench sheet of one routing: what to wire, to buy, to feed, and to mind. One page in print. */
export function benchSheet(facts: SheetFacts): HTMLElement {
  const { rigName, routing, wiring, isReference } = facts;
  const { build } = routing;
  return el(
    "article",
    {
      class: build.cables.length > longPatchList ? "sheet long" : "sheet",
      "aria-label": `Sheet: ${routing.label}`,
    },
    el(
      "header",
      {},
      el("h3", {}, routing.label, isReference ? el("span", { class: "reference" }, " reference") : null),
      el("p", { class: "of" }, rigName),
      el("p", { class: "says" }, routing.says),
      el("p", { class: "key-figures" }, keyFigures(facts)),
    ),
    wiring
      ? scroller(`Wiring diagram of ${routing.label}`, wiringDiagram(layoutWiring(wiring), routing.label))
      : null,
    el(
      "div",
      { class: "lists" },
      el("div", { class: "patch" }, scroller(`Patch list of ${routing.label}`, patchList(build))),
      el("div", { class: "needs" }, ...sheetNeeds(build, routing.label)),
      el("div", { class: "cautions" }, el("h4", {}, "Mind"), list(build.cautions)),
    ),
  );
}

/** A patch list with more cables than this is set in two columns on paper. */
const longPatchList = 14;

function keyFigures({ routing: { measures }, takeName }: SheetFacts): string {
  if (!measures) return "";
  const { widthKept, correlation, foldDownLossDb, balanceDb } = measures;
  return (
    `On ${takeName}: width kept ${withUnit(percent(widthKept), "%")}, correlation ${decimal(correlation, 2)}, ` +
    `loss in mono ${withUnit(decimal(foldDownLossDb, 1), "dB")}, balance ${withUnit(decimal(balanceDb, 1), "dB")} left to right.`
  );
}

/** The plug that most cables have stands above the list, the others in their rows. */
function patchList({ cables }: BuildSheet): HTMLTableElement {
  const usual = mostCommon(cables.map(({ plug }) => plug));
  const exceptions = cables.some(({ plug }) => plug !== usual) ? ", unless said otherwise" : "";
  return table(
    `Patch list, ${count(cables.length, "cable")}: ${usual}${exceptions}`,
    [{ heading: "No." }, { heading: "From", text: true }, { heading: "To", text: true }],
    cables.map(({ from, fromJack, to, toJack, plug }, n) => [
      String(n + 1),
      jackOf(from, fromJack),
      jackOf(to, toJack, plug === usual ? null : plug),
    ]),
  );
}

/** "Undertow, out left", jack and unusual plug set apart. */
const jackOf = (box: string, jack: string, plug: string | null = null): HTMLElement =>
  el("span", {}, box, el("span", { class: "jack" }, `, ${jack}${plug === null ? "" : ` (${plug})`}`));

function mostCommon(words: readonly string[]): string {
  const often = (word: string) => words.filter((other) => other === word).length;
  return [...new Set(words)].sort((a, b) => often(b) - often(a))[0] ?? "";
}

const list = (sentences: readonly string[]): HTMLElement =>
  el("ul", {}, ...sentences.map((sentence) => el("li", {}, sentence)));
