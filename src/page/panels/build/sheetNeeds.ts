import type { BuildSheet } from "../../../rig/wiring/buildSheet.js";
import { count, money } from "../../../text/numbers.js";
import { scroller, table } from "../../widgets/dataTable.js";
import { type Child, el } from "../../widgets/dom.js";
import { decimal, nothing, withUnit } from "../../widgets/typeset.js";

/** What a routing takes: parts, money, current and room on the board. */
export function sheetNeeds(build: BuildSheet, label: string): readonly Child[] {
  return [
    build.parts.length === 0
      ? el("p", { class: "nothing" }, el("b", {}, "Parts: "), "nothing beyond the pedals of the rig.")
      : scroller(`Parts for ${label}`, partsTable(build)),
    el("p", {}, el("b", {}, "To buy: "), priceWords(build)),
    el("p", {}, el("b", {}, "Supply: "), supplyWords(build)),
    el("p", {}, el("b", {}, "Board: "), boardWords(build)),
  ];
}

function supplyWords({ supply, supplyUnknown }: BuildSheet): string {
  const rails = supply.map(
    ({ volts, milliamps, outlets }) => `${volts} V, ${milliamps} mA over ${count(outlets, "outlet")}`,
  );
  return `${supply.length === 0 ? "not known" : rails.join("; ")}.${unknownWords(supplyUnknown)}`;
}

function boardWords({ boardAreaCm2, areaUnknown }: BuildSheet): string {
  if (boardAreaCm2 === null) return "size not known.";
  return `${withUnit(decimal(boardAreaCm2, 0), "cm\u00b2")} of boxes.${unknownWords(areaUnknown)}`;
}

const unknownWords = (names: readonly string[]): string =>
  names.length > 0 ? ` Not known: ${names.join(", ")}.` : "";

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
