import type { Instrument, JackFacts, Pickup, Rig } from "../model/rig.js";
import { dividerGain, inParallel } from "./dividers.js";
import { netsOf } from "./nets.js";
import { type JackLoad, jackLevel, type LevelOver } from "./pickupCircuit.js";
import { boughtAs, isBoxPart } from "./soldBoxes.js";
import type { Box, TakeLoading, Wiring } from "./wiring.js";

/** What an input has of which the rig tells nothing, and what a take is played into: common practice, no source. */
const assumedOhms = 1e6;

/** What loading does to the signal at an output that drives, against the take as it was recorded. */
export interface LoadingChange {
  /** Of the divider of source and load; 1 where one of them is not given. */
  readonly gain: number;
  /** An instrument's circuit, loaded otherwise than when it was recorded; else null. */
  readonly circuit: LoadedCircuit | null;
}
export interface LoadedCircuit {
  readonly pickup: Pickup;
  readonly load: JackLoad;
  readonly recordedInto: JackLoad;
}

/** The wiring with what its boxes load each other by, where that is heard; else as it is. */
export function withLoading(wiring: Wiring, rig: Rig): Wiring {
  if (whyLoadingIsNotHeard(rig) !== null) return wiring;
  const loading = loadingOfTake(wiring, rig);
  const boxes = wiring.boxes.map((box) => (box.kind === "take" ? { ...box, loading } : box));
  return { boxes, cables: wiring.cables };
}

/**
 * The wiring on a bench: fed through a resistance, open circuit to open circuit, in place of its instrument; nothing of it
 * is known by what a take was recorded into.
 */
export function fedThrough(wiring: Wiring, rig: Rig, sourceOhms: number): Wiring {
  const pickup: Pickup = { ohms: sourceOhms, henries: 0, picofarads: 0, volume: null, tone: null };
  const loading: TakeLoading = {
    ...loadingOfTake(wiring, rig),
    pickup,
    recordedInto: { ohms: Number.POSITIVE_INFINITY, picofarads: 0 },
  };
  const boxes = wiring.boxes.map((box) => (box.kind === "take" ? { ...box, loading } : box));
  return { boxes, cables: wiring.cables };
}

/** Null where loading is heard. */
export function whyLoadingIsNotHeard({ instrument, leavesLoadingOut }: Rig): "asked" | "no-circuit" | null {
  if (leavesLoadingOut) return "asked";
  return instrument.outputOhms === null || instrument.henries === null ? "no-circuit" : null;
}

/** By `jackKey`: of outputs at which loading changes anything. */
export type LoadingChanges = ReadonlyMap<string, LoadingChange>;
export const jackKey = (box: string, jack: string): string => `${box}\n${jack}`;

/**
 * What loading does at each output that drives, with the boxes on or off as they are. Between boxes it is a level: what
 * a divider of stated resistances takes. At an instrument it is its circuit's level over frequency with what hangs on it,
 * against the same circuit with what it was recorded into; inputs of which nothing is stated count as 1 megohm there.
 */
export function loadingChanges(wiring: Wiring): LoadingChanges {
  const loading = loadingIn(wiring);
  if (!loading) return new Map();
  const ohmsOf = (box: Box) => (box.kind === "pedal" ? box.pedal : loading.ohms[box.id]);
  return new Map(
    netsOf(wiring, loading.cables).flatMap(({ from, to, picofarads }) => {
      const inputs = to.map(({ box }) => ohmsOf(box)?.inputOhms ?? null);
      const change =
        from.box.kind === "take"
          ? instrumentChange(loading, {
              ohms: inParallel(inputs.map((ohms) => ohms ?? assumedOhms)),
              picofarads,
            })
          : boxChange(ohmsOf(from.box)?.outputOhms ?? null, inputs);
      return change ? [[jackKey(from.box.id, from.jack), change] as const] : [];
    }),
  );
}

/** Level over frequency of a circuit against what was recorded, dB. */
export function circuitChange({ pickup, load, recordedInto }: LoadedCircuit): LevelOver {
  const now = jackLevel(pickup, load);
  const recorded = jackLevel(pickup, recordedInto);
  return (hz) => now(hz) - recorded(hz);
}

const loadingIn = ({ boxes }: Wiring): TakeLoading | undefined =>
  boxes.flatMap((box) => (box.kind === "take" ? (box.loading ?? []) : []))[0];

function instrumentChange({ pickup, recordedInto }: TakeLoading, load: JackLoad): LoadingChange | null {
  const isAlike = load.ohms === recordedInto.ohms && load.picofarads === recordedInto.picofarads;
  return isAlike ? null : { gain: 1, circuit: { pickup, load, recordedInto } };
}

function boxChange(sourceOhms: number | null, inputs: readonly (number | null)[]): LoadingChange | null {
  const known = inputs.flatMap((ohms) => ohms ?? []);
  if (sourceOhms === null || known.length < inputs.length) return null;
  return { gain: dividerGain(sourceOhms, inParallel(known)), circuit: null };
}

function loadingOfTake(wiring: Wiring, rig: Rig): TakeLoading {
  const parts = wiring.boxes.flatMap((box): [string, JackOhms][] => {
    if (box.kind === "destination") return [[box.id, { ...noOhms, inputOhms: rig.destination.inputOhms }]];
    const { inputOhms, outputOhms } = (isBoxPart(box) && boughtAs(box, wiring, rig)) || noOhms;
    return isBoxPart(box) ? [[box.id, { inputOhms, outputOhms }]] : [];
  });
  return {
    pickup: pickupOf(rig.instrument),
    recordedInto: recordedInto(rig),
    cables: rig.cables,
    ohms: Object.fromEntries(parts),
  };
}

type JackOhms = Pick<JackFacts, "inputOhms" | "outputOhms">;
const noOhms: JackOhms = { inputOhms: null, outputOhms: null };

/** What the take was played into: where the rig does not tell, 1 megohm by the instrument's own cable. */
export function recordedInto({
  takeInto,
  cables,
}: Pick<Rig, "takeInto" | "cables">): TakeLoading["recordedInto"] {
  return {
    ohms: takeInto.ohms ?? assumedOhms,
    picofarads: takeInto.picofarads ?? cables.instrumentMetres * cables.picofaradsPerMetre,
  };
}

const pickupOf = ({ outputOhms, henries, picofarads, volume, tone }: Instrument): Pickup => ({
  ohms: outputOhms ?? 0,
  henries: henries ?? 0,
  picofarads: picofarads ?? 0,
  volume,
  tone,
});
