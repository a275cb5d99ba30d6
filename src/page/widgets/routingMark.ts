import type { RoutingId } from "../../rig/routings/routing.js";
/**
 * How a routing is told from the others in every plot and list: a colour, a dash and a mark, so that no one of them
 * has to be seen. Colours: M. Okabe and K. Ito, "Color Universal Design", 2008. Their yellow is left out, too faint on
 * white paper for a line; black, which turns white on a dark page, is therefore used twice.
 */
export interface RoutingMark {
  /** As CSS: a variable that `markColours` sets. */
  readonly colour: string;
  /** SVG dash array; "none" for a whole line. */
  readonly dash: string;
  readonly symbol: MarkSymbol;
}
type MarkSymbol = "circle" | "square" | "triangle" | "diamond" | "star" | "wye" | "cross" | "times";

const okabeIto = {
  black: "#000000",
  orange: "#e69f00",
  skyBlue: "#56b4e9",
  green: "#009e73",
  blue: "#0072b2",
  vermillion: "#d55e00",
  purple: "#cc79a7",
} as const;
type Colour = keyof typeof okabeIto;

const own = {
  "series-mono": mark("black", "1 4", "square"),
  "unit-first": mark("blue", "none", "circle"),
  "dual-mono": mark("vermillion", "7 3", "triangle"),
  parallel: mark("green", "none", "diamond"),
  "parallel-after": mark("skyBlue", "9 3 2 3", "star"),
  "one-side": mark("purple", "4 3", "wye"),
  summed: mark("orange", "2 3", "cross"),
  "stereo-unit": mark("black", "none", "circle"),
  "as-given": mark("black", "none", "circle"),
  dry: mark("black", "2 6", "times"),
} satisfies Record<RoutingId | "as-given" | "dry", RoutingMark>;
const marks: Readonly<Record<string, RoutingMark>> = own;

/** For wirings drawn by hand, in their order: colours of above in a dash of their own. */
const handMarks: readonly RoutingMark[] = [
  mark("blue", "12 4", "square"),
  mark("vermillion", "12 4", "diamond"),
  mark("green", "12 4", "wye"),
  mark("purple", "12 4", "star"),
  mark("orange", "12 4", "triangle"),
  mark("skyBlue", "12 4", "cross"),
];

/** The mark of a routing; `all` are the ids of the report, which give hand-drawn ones their number. */
export function routingMark(id: string, all: readonly string[]): RoutingMark {
  const known = Object.hasOwn(marks, id) ? marks[id] : undefined;
  if (known) return known;
  const number = all.filter((other) => !Object.hasOwn(marks, other)).indexOf(id);
  return handMarks[Math.max(0, number) % handMarks.length];
}

/** CSS that gives the colours: black becomes white where the page is dark. */
export function markColours(): string {
  const lines = Object.entries(okabeIto).map(([name, value]) => `--mark-${name}:${value};`);
  return `:root{${lines.join("")}}@media (prefers-color-scheme:dark){@media screen{:root{--mark-black:#ffffff;--mark-blue:#2f9fe0}}}`;
}

function mark(colour: Colour, dash: string, symbol: MarkSymbol): RoutingMark {
  return { colour: `var(--mark-${colour})`, dash, symbol };
}
