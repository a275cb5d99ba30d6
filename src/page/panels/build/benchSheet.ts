import type { BuildSheet } from "../../../rig/wiring/buildSheet.js";
import type { WiringLayout } from "../../../rig/wiring/layout.js";
import { count, money } from "../../../text/numbers.js";
import type { RoutingReport } from "../../../work/compare/report.js";
import { type Child, el } from "../../widgets/dom.js";
import { scroller, table } from "../../widgets/section.js";
import { decimal, nothing, percent, withUnit } from "../../widgets/typeset.js";
import { wiringDiagram } from "./wiringDiagram.js";

export interface SheetOf {
  readonly rigName: string;
  readonly takeName: string;
  readonly isReference: boolean;
  readonly routing: RoutingReport;
  readonly build: BuildSheet;
  readonly layout: WiringLayout | undefined;
}

/** The bench sheet of one routing: what to wire, to buy, to feed, and to mind. One page in print. */
export function sheet(facts: SheetOf): HTMLElement {
  const { rigName, routing, build, layout, isReference } = facts;
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
    layout ? scroller(`Wiring diagram of ${routing.label}`, wiringDiagram(layout, routing.label)) : null,
    el(
      "div",
      { class: "lists" },
      el("div", { class: "patch" }, scroller(`Patch list of ${routing.label}`, patchList(build))),
      el("div", { class: "needs" }, ...needs(build, routing.label)),
      el("div", { class: "cautions" }, el("h4", {}, "Mind"), list(build.cautions)),
    ),
  );
}

/** A patch list with more cables than this is set in two columns on paper. */
const longPatchList = 14;

function keyFigures({ routing: { measures }, takeName }: SheetOf): string {
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

function needs(build: BuildSheet, label: string): Child[] {
  const { parts, supply, supplyUnknown, boardAreaCm2, areaUnknown } = build;
  return [
    parts.length === 0
      ? el("p", { class: "nothing" }, el("b", {}, "Parts: "), "nothing beyond the pedals of the rig.")
      : scroller(`Parts for ${label}`, partsTable(build)),
    el("p", {}, el("b", {}, "To buy: "), priceWords(build)),
    el(
      "p",
      {},
      el("b", {}, "Supply: "),
      supply.length === 0
        ? "not known."
        : `${supply.map(({ volts, milliamps, outlets }) => `${volts} V, ${milliamps} mA over ${count(outlets, "outlet")}`).join("; ")}.`,
      supplyUnknown.length > 0 ? ` Not known: ${supplyUnknown.join(", ")}.` : null,
    ),
    el(
      "p",
      {},
      el("b", {}, "Board: "),
      boardAreaCm2 === null
        ? "size not known."
        : `${withUnit(decimal(boardAreaCm2, 0), "cm\u00b2")} of boxes.`,
      boardAreaCm2 !== null && areaUnknown.length > 0 ? ` Not known: ${areaUnknown.join(", ")}.` : null,
    ),
  ];
}

function partsTable({ parts, currency }: BuildSheet): HTMLTableElement {
  return table(
    "Parts beyond the pedals of the rig",
    [
      { heading: "Part" },
      { heading: "needed" },
      { heading: "to buy" },
      { heading: "each", unit: currency },
      { heading: "supply", text: true },
    ],
    parts.map(({ what, count: needed, toBuy, price, supply }) => [
      what,
      String(needed),
      String(toBuy),
      price === null ? nothing : decimal(price, 0),
      supply ? `${supply.volts} V ${supply.milliamps} mA` : nothing,
    ]),
  );
}

function priceWords({ parts, price, priceUnknown, currency }: BuildSheet): string {
  if (parts.every(({ toBuy }) => toBuy === 0)) return "nothing.";
  if (price === null) return `${priceUnknown.join(", ")}; no price is given.`;
  const and = priceUnknown.length > 0 ? `, and ${priceUnknown.join(", ")}, of which no price is given` : "";
  return `${money(price, currency)}${and}.`;
}

const list = (sentences: readonly string[]): HTMLElement =>
  el("ul", {}, ...sentences.map((sentence) => el("li", {}, sentence)));
