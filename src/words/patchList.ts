import type { BuildSheet } from "../rig/wiring/buildSheet.js";
import { columnsText, widest } from "../text/columns.js";

/** Every cable from jack to jack. */
export function cablesText({ cables }: BuildSheet, columns: number): string {
  const most = Math.floor((columns - 10) / 2);
  const rows = cables.map(({ from, fromJack, to, toJack }, n) => [
    `${n + 1}`.padStart(5),
    `${from}, ${fromJack}`,
    `> ${to}, ${toJack}`,
  ]);
  const width = (n: number) => Math.min(most, widest(rows.map((row) => row[n]!)));
  return columnsText(
    [
      { heading: [], align: "right", width: 5 },
      { heading: [], align: "left", width: width(1) },
      { heading: [], align: "left", width: width(2) },
    ],
    rows,
  );
}

/** Plug types with the numbers of their cables; the commonest goes without. */
export function plugsText({ cables }: BuildSheet): string {
  const byPlug = new Map<string, number[]>();
  cables.forEach(({ plug }, n) => {
    byPlug.set(plug, [...(byPlug.get(plug) ?? []), n + 1]);
  });
  const groups = [...byPlug].sort(([, a], [, b]) => b.length - a.length);
  const texts = groups.map(([plug, numbers], n) => {
    const which = `${numbers.length === 1 ? "cable" : "cables"} ${numbers.join(", ")}`;
    return n === 0 ? plug : `${which}: ${plug}`;
  });
  return `${texts.join("; ")}.`;
}
