import { spacing } from "./spacing.js";

/** A piece of a cable in the channel between two layers: from one level to another, where it leads off to a side. */
export interface Upright {
  readonly from: number;
  readonly to: number;
  readonly fromSide: Side;
  readonly toSide: Side;
}
type Side = "left" | "right";

/** Along a track to a level. */
export interface Step {
  readonly track: number;
  readonly to: number;
}

interface Piece extends Upright {
  readonly owner: number;
}

/**
 * Tracks for the uprights of a channel, counted from the left, so that few pieces cross and none lie on each other. One
 * that begins at its own level needs none. Two cables that change levels with each other cannot both run straight
 * down: one of them takes two tracks, with a level piece of its own in between.
 * Source: the channel routing of integrated circuits, Hashimoto and Stevens 1971, with doglegs after Deutsch 1976.
 */
export function inTracks(uprights: readonly Upright[]): {
  readonly count: number;
  readonly steps: readonly (readonly Step[])[];
} {
  const levels = uprights.flatMap(({ from, to }) => [from, to]);
  let pieces: Piece[] = uprights.flatMap((upright, owner) =>
    upright.from === upright.to ? [] : [{ ...upright, owner }],
  );
  let order = bestOrder(pieces);
  for (let splits = 0; splits < uprights.length; splits++) {
    const clash = clashing(order.map((n) => pieces[n]));
    if (!clash) break;
    pieces = pieces.flatMap((piece) => (piece === clash ? halves(piece, levels) : [piece]));
    order = bestOrder(pieces);
  }
  const tracks = assigned(pieces, order);
  const steps: Step[][] = uprights.map(() => []);
  pieces.forEach(({ owner, to }, n) => {
    steps[owner].push({ track: tracks[n], to });
  });
  return { count: tracks.reduce((most, track) => Math.max(most, track + 1), 0), steps };
}

/** What a clash weighs against a crossing. */
const clashCost = 1000;

/** What it costs that one piece stands left of another. */
function cost(left: Piece, right: Piece, isLater: boolean): number {
  if (left.owner === right.owner) return isLater ? clashCost ** 2 : 0;
  return crossings(left, right) + (clash(left, right) ? clashCost : 0);
}

const levelsTo = (side: Side, { from, to, fromSide, toSide }: Piece): number[] => [
  ...(fromSide === side ? [from] : []),
  ...(toSide === side ? [to] : []),
];

const crossings = (left: Piece, right: Piece): number =>
  levelsTo("left", right).filter((level) => isWithin(left, level)).length +
  levelsTo("right", left).filter((level) => isWithin(right, level)).length;

const isWithin = ({ from, to }: Piece, level: number): boolean =>
  Math.min(from, to) < level && level < Math.max(from, to);

/** Whether level pieces of both would lie side by side, too near to be told apart. */
const clash = (left: Piece, right: Piece): boolean =>
  levelsTo("right", left).some((a) => levelsTo("left", right).some((b) => Math.abs(a - b) < spacing.levels));

/** The longer of the first two that clash. */
function clashing(pieces: readonly Piece[]): Piece | null {
  const length = ({ from, to }: Piece) => Math.abs(to - from);
  for (const [n, left] of pieces.entries())
    for (const right of pieces.slice(n + 1))
      if (left.owner !== right.owner && clash(left, right))
        return length(left) >= length(right) ? left : right;
  return null;
}

/** A piece as two, with a level between them where there is most room. The level is added to those that are taken. */
function halves(piece: Piece, levels: number[]): Piece[] {
  const within = [...levels.filter((level) => isWithin(piece, level)), piece.from, piece.to].sort(
    (a, b) => a - b,
  );
  const gap = (n: number) => within[n] - within[n - 1];
  let widest = 1;
  for (let n = 2; n < within.length; n++) if (gap(n) > gap(widest)) widest = n;
  const middle = (within[widest - 1] + within[widest]) / 2;
  levels.push(middle);
  return [
    { ...piece, to: middle, toSide: "right" },
    { ...piece, from: middle, fromSide: "left" },
  ];
}

/** The numbers of the pieces from left to right: each is moved to its best place until nothing is gained. */
function bestOrder(pieces: readonly Piece[]): readonly number[] {
  const costs = pieces.map((left, a) => pieces.map((right, b) => cost(left, right, a > b)));
  const order = pieces.map((_, n) => n);
  for (let gains = true; gains; ) {
    gains = false;
    for (let piece = 0; piece < pieces.length; piece++) {
      const at = order.indexOf(piece);
      const place = bestPlace(order, at, costs);
      if (place === at) continue;
      order.splice(at, 1);
      order.splice(place, 0, piece);
      gains = true;
    }
  }
  return order;
}

/** Where in the order the piece at `at` costs least, the others as they are. */
function bestPlace(order: readonly number[], at: number, costs: readonly (readonly number[])[]): number {
  const piece = order[at];
  let best = at;
  let least = 0;
  for (const step of [-1, 1]) {
    let change = 0;
    for (let n = at + step; n >= 0 && n < order.length; n += step) {
      const passed = costs[order[n]][piece] - costs[piece][order[n]];
      change += step < 0 ? -passed : passed;
      if (change < least) {
        least = change;
        best = n;
      }
    }
  }
  return best;
}

/** The leftmost track that lies right of all that must be left of it; pieces that are apart share one. */
function assigned(pieces: readonly Piece[], order: readonly number[]): readonly number[] {
  const tracks = pieces.map(() => 0);
  order.forEach((own, n) => {
    for (const other of order.slice(0, n))
      if (meet(pieces[other], pieces[own])) tracks[own] = Math.max(tracks[own], tracks[other] + 1);
  });
  return tracks;
}

/** Whether it matters which of two is on the left. */
function meet(a: Piece, b: Piece): boolean {
  const [upperEnd, lowerStart] =
    Math.min(a.from, a.to) < Math.min(b.from, b.to)
      ? [Math.max(a.from, a.to), Math.min(b.from, b.to)]
      : [Math.max(b.from, b.to), Math.min(a.from, a.to)];
  return a.owner === b.owner || lowerStart < upperEnd + spacing.levels || clash(a, b) || clash(b, a);
}
