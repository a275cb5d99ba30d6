import type { Asks, Rig } from "../../rig/model/rig.js";
import { pedalBoxes } from "../../rig/wiring/parts.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import type { Candidate, Merits, Sum } from "./merits.js";

export type AskName = Exclude<keyof Asks, "first">;

/** One ask and what a wiring makes of it. */
export interface AskFound {
  readonly ask: AskName;
  /** The pedal that it is about; null where it is about the whole. */
  readonly unit: string | null;
  /** Null: not known, since the rig leaves something out that counts. */
  readonly keeps: boolean | null;
  /** As asked, where that is a figure. */
  readonly limit: number | null;
  /** As found, in the limit's unit; of an open sum, what is known of it. */
  readonly figure: number | null;
  /** What breaks it, or what is not known, by name. */
  readonly by: readonly string[];
}

/** Every ask of the rig, held against a wiring. An ask is never kept on the strength of a figure that is not known. */
export function asksOf(rig: Rig, candidate: Candidate): readonly AskFound[] {
  const { asks } = rig;
  const { routing, merits } = candidate;
  const { wiring } = routing;
  if (!wiring) return [];
  return [
    ...(asks.stereo === null ? [] : [widthFound(asks.stereo, merits)]),
    ...asks.order.map((unit) => named("order", unit, overtakenBy(rig, wiring, unit))),
    ...asks.sameUnit.map((unit) => named("sameUnit", unit, standInsFor(candidate, unit))),
    ...(asks.oneOfEach ? [whole("oneOfEach", doubledIn(wiring))] : []),
    ...(asks.bothSides ? [whole("bothSides", onOneSide(candidate))] : []),
    ...most("spendAtMost", asks.spendAtMost, merits.cost),
    ...most("extraBoxesAtMost", asks.extraBoxesAtMost, { known: merits.boxes, open: [] }),
    ...most("outletsAtMost", asks.outletsAtMost, merits.outlets),
    ...most("milliampsAtMost", asks.milliampsAtMost, merits.milliamps),
    ...most("boardCm2AtMost", asks.boardCm2AtMost, merits.boardCm2),
    ...(asks.monoLossDbAtMost === null ? [] : [lossFound(asks.monoLossDbAtMost, merits)]),
  ];
}

const isBroken = ({ keeps }: AskFound): boolean => keeps === false;

/** Asks that a wiring breaks for sure. */
export const brokenBy = (rig: Rig, candidate: Candidate): readonly AskFound[] =>
  asksOf(rig, candidate).filter(isBroken);

function widthFound(limit: number, { width }: Merits): AskFound {
  const keeps = width === null ? null : width >= limit;
  return { ask: "stereo", unit: null, keeps, limit, figure: width, by: [] };
}

function lossFound(limit: number, { monoLossDb }: Merits): AskFound {
  const keeps = monoLossDb === null ? null : monoLossDb <= limit;
  return { ask: "monoLossDbAtMost", unit: null, keeps, limit, figure: monoLossDb, by: [] };
}

const named = (ask: AskName, unit: string, by: readonly string[]): AskFound => ({
  ask,
  unit,
  keeps: by.length === 0,
  limit: null,
  figure: null,
  by,
});

const whole = (ask: AskName, by: readonly string[]): AskFound => ({
  ask,
  unit: null,
  keeps: by.length === 0,
  limit: null,
  figure: null,
  by,
});

/** An open sum breaks its limit where what is known is over it already, and keeps it never for sure. */
function most(ask: AskName, limit: number | null, { known, open }: Sum): readonly AskFound[] {
  if (limit === null) return [];
  const keeps = known > limit ? false : open.length > 0 ? null : true;
  return [{ ask, unit: null, keeps, limit, figure: known, by: open }];
}

/** Pedals that stand ahead of a unit in the rig and here act on its sound: its order is given up. */
function overtakenBy(rig: Rig, wiring: Wiring, unit: string): readonly string[] {
  const ahead = new Set(
    rig.pedals
      .slice(
        0,
        rig.pedals.findIndex(({ name }) => name === unit),
      )
      .map(({ name }) => name),
  );
  const behind = downstreamOf(wiring, idsOf(wiring, unit));
  const acting = pedalBoxes(wiring).filter(({ id, pedal }) => behind.has(id) && ahead.has(pedal.name));
  return [...new Set(acting.map(({ pedal }) => pedal.name))];
}

const idsOf = (wiring: Wiring, unit: string): readonly string[] =>
  pedalBoxes(wiring)
    .filter(({ pedal }) => pedal.name === unit)
    .map(({ id }) => id);

function downstreamOf(wiring: Wiring, from: readonly string[]): ReadonlySet<string> {
  const reached = new Set<string>();
  const waiting = [...from];
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    for (const { from: start, to } of wiring.cables) {
      if (start.box !== id || reached.has(to.box)) continue;
      reached.add(to.box);
      waiting.push(to.box);
    }
  }
  return reached;
}

/** What plays in a unit's stead: a stereo unit or an alternative. */
function standInsFor({ routing: { plan, wiring } }: Candidate, unit: string): readonly string[] {
  const seat = plan?.seats.find((candidate) => candidate.unit === unit);
  if (seat && (seat.takes !== null || seat.place === "stereo")) return [seat.takes ?? `a stereo ${unit}`];
  return wiring && (idsOf(wiring, unit).length > 0 || seat) ? [] : ["nothing: it is left out"];
}

/** Pedals of which there are two. */
function doubledIn(wiring: Wiring): readonly string[] {
  const names = pedalBoxes(wiring).map(({ pedal }) => pedal.name);
  return [...new Set(names.filter((name, n) => names.indexOf(name) !== n))];
}

const onOneSide = ({ routing: { plan } }: Candidate): readonly string[] =>
  (plan?.seats ?? []).flatMap(({ unit, place }) => (place === "left" || place === "right" ? [unit] : []));
