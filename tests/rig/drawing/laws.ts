import type { Point } from "../../../src/rig/drawing/channel.js";
import type { LaidBox, WiringLayout } from "../../../src/rig/drawing/layout.js";

/*
 * Laws that a wiring diagram must hold to be read at all: boxes apart, cables level or upright from jack to jack, not
 * through boxes and not on each other. Common practice of schematic drawing, no source. Each lists what breaks it.
 */

export const boxOf = ({ boxes }: WiringLayout, id: string): LaidBox => {
  const box = boxes.find((one) => one.id === id);
  if (!box) throw new Error(`no box "${id}"`);
  return box;
};

export const brokenLaws = (layout: WiringLayout) => ({
  overlaps: overlaps(layout),
  outside: outside(layout),
  loose: looseCables(layout),
  slanted: slantedCables(layout),
  throughBoxes: cablesThroughBoxes(layout),
  shared: sharedPieces(layout),
});
export const noneBroken = {
  overlaps: [],
  outside: [],
  loose: [],
  slanted: [],
  throughBoxes: [],
  shared: [],
};

function overlaps({ boxes }: WiringLayout): string[] {
  return boxes.flatMap((a, n) =>
    boxes
      .slice(n + 1)
      .filter(
        (b) => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height,
      )
      .map((b) => `${a.id} over ${b.id}`),
  );
}

function outside({ boxes, cables, width, height }: WiringLayout): unknown[] {
  const corners = boxes.flatMap((box) => [
    { x: box.x, y: box.y },
    { x: box.x + box.width, y: box.y + box.height },
  ]);
  return [...corners, ...cables.flatMap(({ points }) => points)].filter(
    ({ x, y }) => !(x >= 0 && y >= 0 && x <= width && y <= height),
  );
}

function looseCables(layout: WiringLayout): string[] {
  const jackAt = (box: string, jack: string, side: string) => {
    const found = boxOf(layout, box).jacks.find((one) => one.name === jack && one.side === side);
    return found && { x: found.x, y: found.y };
  };
  const apart = (a: Point | undefined, b: Point | undefined) =>
    !a || !b || Math.hypot(a.x - b.x, a.y - b.y) > 0.01;
  return layout.cables
    .filter(
      ({ from, to, points }) =>
        apart(points[0], jackAt(from.box, from.jack, "out")) ||
        apart(points.at(-1), jackAt(to.box, to.jack, "in")),
    )
    .map(({ from, to }) => `${from.box}:${from.jack} to ${to.box}:${to.jack}`);
}

type Piece = readonly [Point, Point];
const pieces = (points: readonly Point[]): Piece[] => points.slice(1).map((to, n) => [points[n], to]);

const slantedCables = ({ cables }: WiringLayout): unknown[] =>
  cables.flatMap(({ points }) =>
    pieces(points).filter(([a, b]) => Math.abs(a.x - b.x) > 0.01 && Math.abs(a.y - b.y) > 0.01),
  );

function cablesThroughBoxes({ boxes, cables }: WiringLayout): string[] {
  const inside = 0.5;
  return cables.flatMap(({ from, points }) =>
    pieces(points).flatMap(([a, b]) =>
      boxes
        .filter(
          ({ x, y, width, height }) =>
            Math.max(a.x, b.x) > x + inside &&
            Math.min(a.x, b.x) < x + width - inside &&
            Math.max(a.y, b.y) > y + inside &&
            Math.min(a.y, b.y) < y + height - inside,
        )
        .map(({ id }) => `cable from ${from.box} through ${id}`),
    ),
  );
}

/** Pieces of two cables that lie on each other for more than a point. */
const sharedPieces = (layout: WiringLayout): string[] =>
  pairsOf(layout, (a, b) => {
    const along = isLevel(a) ? "x" : "y";
    const across = isLevel(a) ? "y" : "x";
    const end = Math.min(most(a, along), most(b, along));
    const start = Math.max(least(a, along), least(b, along));
    return isLevel(a) === isLevel(b) && Math.abs(a[0][across] - b[0][across]) < 0.01 && end > start;
  });

/** Where a level piece of a cable and an upright one of another meet. */
export const crossings = (layout: WiringLayout): number =>
  pairsOf(layout, (a, b) => {
    if (isLevel(a) === isLevel(b)) return false;
    const [level, upright] = isLevel(a) ? [a, b] : [b, a];
    const { x } = upright[0];
    const { y } = level[0];
    return (
      x >= least(level, "x") && x <= most(level, "x") && y >= least(upright, "y") && y <= most(upright, "y")
    );
  }).length;

export const bends = ({ cables }: WiringLayout): number =>
  cables.reduce((sum, { points }) => sum + Math.max(0, pieces(points).filter(isLong).length - 1), 0);

function pairsOf({ cables }: WiringLayout, isOne: (a: Piece, b: Piece) => boolean): string[] {
  const all = cables.map(({ points }) => pieces(points).filter(isLong));
  return all.flatMap((own, n) =>
    all
      .slice(n + 1)
      .flatMap((others, k) =>
        own.flatMap((a) => others.filter((b) => isOne(a, b)).map(() => `cables ${n} and ${n + 1 + k}`)),
      ),
  );
}

const isLong = ([a, b]: Piece): boolean => Math.hypot(a.x - b.x, a.y - b.y) > 0.01;
const isLevel = ([a, b]: Piece): boolean => Math.abs(a.y - b.y) < 0.01;
const least = ([a, b]: Piece, axis: "x" | "y"): number => Math.min(a[axis], b[axis]);
const most = ([a, b]: Piece, axis: "x" | "y"): number => Math.max(a[axis], b[axis]);
