import { type Box, inSignalOrder, type Jack, type Wiring } from "../wiring/wiring.js";
import { type SizedBox, sizeBox } from "./boxSize.js";
import type { Point } from "./channel.js";
import { type Layered, layered, type Span } from "./layered.js";
import { ordered } from "./order.js";
import { type Placed, placed } from "./placed.js";
import { breaksFor, inRows } from "./rows.js";

/** Where a wiring is drawn: boxes, jacks on their edges, and cables in straight pieces. Left to right, in CSS pixels. */
export interface WiringLayout {
  readonly width: number;
  readonly height: number;
  readonly boxes: readonly LaidBox[];
  readonly cables: readonly LaidCable[];
}
export interface LaidBox {
  readonly id: string;
  readonly kind: Box["kind"];
  readonly label: string;
  /** The label as it is set, broken into lines. */
  readonly lines: readonly string[];
  /** Under the label: model of a pedal and how wet it runs, buffered or not, and so on; may be empty. */
  readonly note: string;
  /** A mono unit after the split. */
  readonly isUnit: boolean;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly jacks: readonly LaidJack[];
}
interface LaidJack {
  readonly name: string;
  readonly side: "in" | "out";
  readonly x: number;
  readonly y: number;
}
export interface LaidCable {
  readonly from: Jack;
  readonly to: Jack;
  /** Corners from jack to jack, every piece level or upright. */
  readonly points: readonly Point[];
}

/** Widest drawing that is not folded, px: on a sheet of A4 on its side its 13 px names print at 7 point. */
const widestPx = 1400;
/** Rows get other channels than the one row that they were cut from, so that it may take a few tries to be narrow enough. */
const mostTries = 5;

/**
 * Draws a wiring from left to right: signal flows rightwards, cables run level and upright from jack to jack and
 * around boxes. A drawing too wide for a sheet is folded, to go on in a second row, and so on. The same wiring gives
 * the same drawing on every run. A cable without a jack at either end has no points; one that comes back to a box before
 * its own goes round below. Source: the layered drawing of Sugiyama, Tagawa and Toda 1981, by steps: see the other files.
 * @param rowHeight  of a jack, px, where it is to be more than the usual
 */
export function layoutWiring(wiring: Wiring, rowHeight?: number): WiringLayout {
  const sized = wiring.boxes.map((box) => sizeBox(box, rowHeight));
  const spans = spansOf(wiring, sized);
  const graph = ordered(
    layered(
      sized.map(({ height }) => height),
      spans,
    ),
  );
  const boxWidths = sized.map(({ width }) => width);
  const drawn = narrowed(graph, boxWidths);
  return {
    width: drawn.width,
    height: drawn.height,
    boxes: wiring.boxes.map((box, n) => laidBox(box, sized[n], drawn.corners.get(n))),
    cables: wiring.cables.map((cable, n) => ({ ...cable, points: pointsOf(spans[n], n, drawn, boxWidths) })),
  };
}

/** In one row, or in as many as make it narrow enough. */
function narrowed(graph: Layered, boxWidths: readonly number[]): Placed {
  const inOne = placed(inRows(graph, []), boxWidths);
  let best = inOne;
  let limit = widestPx;
  for (let n = 0; n < mostTries && best.width > widestPx && limit > 0; n++) {
    const folded = placed(inRows(graph, breaksFor(graph, inOne.widths[0], limit)), boxWidths);
    if (folded.width < best.width) best = folded;
    limit -= folded.width - widestPx;
  }
  return best;
}

/** Cables by the numbers of their boxes; null where there is no such box or jack. */
function spansOf({ boxes, cables }: Wiring, sized: readonly SizedBox[]): readonly (Span | null)[] {
  const number = new Map(boxes.map(({ id }, n) => [id, n]));
  const rank = new Map(inSignalOrder({ boxes, cables }).map(({ id }, n) => [id, n]));
  const end = ({ box, jack }: Jack, side: "in" | "out") => {
    const n = number.get(box);
    const found =
      n === undefined ? undefined : sized[n].jacks.find((one) => one.name === jack && one.side === side);
    return n === undefined || !found ? null : { box: n, y: found.y };
  };
  return cables.map(({ from, to }) => {
    const out = end(from, "out");
    const into = end(to, "in");
    if (!out || !into) return null;
    const isBack = (rank.get(from.box) ?? 0) >= (rank.get(to.box) ?? 0);
    return { from: out.box, fromY: out.y, to: into.box, toY: into.y, isBack };
  });
}

function laidBox(box: Box, sized: SizedBox, corner: Point | undefined): LaidBox {
  const { x = 0, y = 0 } = corner ?? {};
  const { lines, note, width, height, jacks } = sized;
  return {
    id: box.id,
    kind: box.kind,
    label: box.label,
    lines,
    note,
    isUnit: box.kind === "pedal" && box.isUnit,
    x,
    y,
    width,
    height,
    jacks: jacks.map((jack) => ({ ...jack, x: x + jack.x, y: y + jack.y })),
  };
}

function pointsOf(
  span: Span | null,
  cable: number,
  { corners, bends }: Placed,
  widths: readonly number[],
): readonly Point[] {
  const from = span && corners.get(span.from);
  const to = span && corners.get(span.to);
  if (!from || !to) return [];
  return [
    { x: from.x + widths[span.from], y: from.y + span.fromY },
    ...bends[cable],
    { x: to.x, y: to.y + span.toY },
  ];
}
