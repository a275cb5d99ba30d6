import { groupMeasure } from "./groupMeasure.js";
import { type SchroederCurve, schroederCurve } from "./schroeder.js";
import { slopeOf } from "./slope.js";

const seconds = { unit: "s", format: { fixed: 2 }, better: null } as const;

export const decayMeasure = groupMeasure({
  id: "decay",
  from: "rig",
  needs: ["response"],
  value: ({ response }) => decayTimes(response.channels, response.rateHz).decay,
  find: ({ response }) => {
    const { decay, reasons } = decayTimes(response.channels, response.rateHz);
    return { value: decay, reasons };
  },
  means:
    "EDT, T20 and T30: lines on the Schroeder curve of the impulse response, carried on to a fall of 60 dB, s",
  source: "ISO 3382-1:2009, 5.3 and Annex A.2.2",
  fields: {
    edtSeconds: { of: ({ edtSeconds }) => edtSeconds, name: "EDT", ...seconds },
    t20Seconds: { of: ({ t20Seconds }) => t20Seconds, name: "T20", ...seconds },
    t30Seconds: { of: ({ t30Seconds }) => t30Seconds, name: "T30", ...seconds },
  },
});

export interface Decay {
  readonly edtSeconds: number | null;
  readonly t20Seconds: number | null;
  readonly t30Seconds: number | null;
  /** Schroeder curve, dB re its start, every `stepSeconds`. For plots. */
  readonly curveDb: readonly number[];
  readonly stepSeconds: number;
}

/** Parts of the decay curve that times are read from, dB below its start; ISO 3382-1:2009, 5.3 and Annex A. */
const ranges = {
  edtSeconds: { fromDb: 0, toDb: -10 },
  t20Seconds: { fromDb: -5, toDb: -25 },
  t30Seconds: { fromDb: -5, toDb: -35 },
} as const;
/** A fit ends at least so far above the floor: with the ranges, the standard's 35 dB for T20 and 45 dB for T30. */
const marginDb = 10;
/** A line through less than half of its range says nothing about the range: the curve has dropped there at once. */
const leastShareOfRange = 0.5;
const stepSeconds = 0.01;
const curveEndDb = -120;

export interface DecayReading {
  /** Null when the response is silent. */
  readonly decay: Decay | null;
  /** Why a time is null, by `decay` or `decay.t20Seconds` and so on: as in `Measures.reasons`. */
  readonly reasons: Readonly<Record<string, string>>;
}

/**
 * Decay times of an impulse response: least-squares lines on its Schroeder curve, carried on to a fall of 60 dB.
 * EDT from 0 to -10 dB, T20 from -5 to -25 dB, T30 from -5 to -35 dB.
 *
 * @param channels  impulse response, channels of one length, any scale; their energies are added
 * @returns times in seconds; null where the curve has fewer dB than the fit and 10 dB above the floor take, or drops
 *   through most of the range at once, as it does with nothing that rings on
 * Source: ISO 3382-1:2009, 5.3 and Annex A.2.2; the rule of half the range: common practice, no source.
 */
export function decayTimes(channels: readonly Float32Array[], rateHz: number): DecayReading {
  const curve = schroederCurve(channels, rateHz);
  if (curve === null) return { decay: null, reasons: { decay: "the impulse response is silent" } };
  const { remaining } = curve;
  const curveDb = new Float64Array(remaining.length);
  for (let n = 0; n < curveDb.length; n++) curveDb[n] = 10 * Math.log10(remaining[n] / remaining[0]);
  const reasons: Record<string, string> = {};
  const time = (field: keyof typeof ranges): number | null => {
    const reading = decayTime(curve, curveDb, ranges[field]);
    if (typeof reading === "number") return reading;
    reasons[`decay.${field}`] = reading;
    return null;
  };
  const decay = {
    edtSeconds: time("edtSeconds"),
    t20Seconds: time("t20Seconds"),
    t30Seconds: time("t30Seconds"),
    curveDb: decimated(curveDb, rateHz),
    stepSeconds,
  };
  return { decay, reasons };
}

/** Seconds, or why there are none. */
function decayTime(
  curve: SchroederCurve,
  curveDb: Float64Array,
  { fromDb, toDb }: { fromDb: number; toDb: number },
): number | string {
  // Plain loops, here and in `schroeder.ts`: they run once, over hundreds of thousands of frames, before calls are inlined.
  let first = 0;
  while (first < curveDb.length && !(curveDb[first] <= fromDb)) first++;
  let last = curveDb.length - 1;
  while (last >= 0 && !(curveDb[last] >= toDb)) last--;
  if (curveDb[curveDb.length - 1] > toDb) return `the response ends before it has fallen by ${-toDb} dB`;
  const spanDb = last <= first ? 0 : curveDb[first] - curveDb[last];
  if (spanDb < leastShareOfRange * (fromDb - toDb))
    return `it falls by ${-toDb} dB at once: nothing rings on`;
  if (curve.powerAt(last) < curve.floorPower * 10 ** (marginDb / 10)) {
    return `at -${-toDb} dB it is less than ${marginDb} dB above its floor: noise, or a response cut short`;
  }
  const frames = new Float64Array(last - first + 1);
  for (let k = 0; k < frames.length; k++) frames[k] = first + k;
  return -60 / (slopeOf(frames, curveDb.subarray(first, last + 1)) * curve.rateHz);
}

function decimated(curveDb: Float64Array, rateHz: number): number[] {
  const points: number[] = [];
  for (let k = 0; Math.round(k * stepSeconds * rateHz) < curveDb.length; k++) {
    const db = curveDb[Math.round(k * stepSeconds * rateHz)];
    if (!(db >= curveEndDb)) break;
    points.push(db);
  }
  return points;
}
