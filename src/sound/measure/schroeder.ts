import { slopeOf } from "./slope.js";

/** Powers are looked at in windows of this length to find the onset's peak, the floor and the late slope. */
const windowSeconds = 0.01;
/** The sound starts where it is first within 20 dB of its peak; ISO 3382-1:2009, 5.3.3 (from memory). */
const onsetShare = 0.01;
/** The last tenth of a response is taken for its floor; common practice. */
const floorShare = 0.1;
/** The late slope is read from 10 dB above the floor up to 30 dB above. */
const lateRangeDb = [10, 30] as const;

/** Energy still to come at each frame, from the onset on. */
export interface SchroederCurve {
  readonly rateHz: number;
  /** Entry n: energy from frame n of the sound to its end, that which was cut off included. */
  readonly remaining: Float64Array;
  /** Mean power of the response's last tenth: noise, or where a decay was cut off. */
  readonly floorPower: number;
  /** Mean power of the 10 ms around frame n. */
  powerAt(frame: number): number;
}

/**
 * Backward-integrated decay of an impulse response, both channels' energies added: E(t) = integral of p^2 from t to t1,
 * plus what an exponential of the late slope would still hold behind t1. t1 is where that slope meets the floor, or the
 * end. A response that ends in digital silence is integrated to its end, and nothing is added.
 *
 * @param channels  impulse response, channels of one length, any scale
 * @returns null when it is silent
 * Source: M. R. Schroeder, "New method of measuring reverberation time", JASA 37, 1965; ISO 3382-1:2009, 5.3.3 (the
 * limit t1 and the correction C, from memory); Lundeby et al., "Uncertainties of measurements in room acoustics",
 * Acustica 81, 1995 (meeting of slope and floor, from memory).
 */
export function schroederCurve(channels: readonly Float32Array[], rateHz: number): SchroederCurve | null {
  const energies = framesFromOnset(channels);
  if (energies === null) return null;
  const windowFrames = Math.max(1, Math.round(windowSeconds * rateHz));
  const powers = windowMeans(energies, windowFrames);
  const floorPower = meanOf(
    powers.subarray(powers.length - Math.max(1, Math.round(powers.length * floorShare))),
  );
  const late = lateDecay(powers, floorPower);
  const meetsFloor = late === null ? powers.length : Math.ceil(late.meetsFloorAt);
  const end = Math.min(energies.length, Math.max(1, meetsFloor) * windowFrames);
  const cutOff = late === null ? 0 : late.energyBehind(end / windowFrames) * windowFrames;
  return {
    rateHz,
    remaining: backwardSum(energies.subarray(0, end), cutOff),
    floorPower,
    powerAt: (frame) => powers[Math.min(powers.length - 1, Math.floor(frame / windowFrames))],
  };
}

function framesFromOnset(channels: readonly Float32Array[]): Float64Array | null {
  const energies = new Float64Array(channels[0]?.length ?? 0);
  for (const channel of channels) for (let n = 0; n < energies.length; n++) energies[n] += channel[n] ** 2;
  let peak = 0;
  for (let n = 0; n < energies.length; n++) peak = Math.max(peak, energies[n]);
  if (!(peak > 0)) return null;
  let onset = 0;
  while (energies[onset] < peak * onsetShare) onset++;
  return energies.subarray(onset);
}

function windowMeans(energies: Float64Array, windowFrames: number): Float64Array {
  const means = new Float64Array(Math.ceil(energies.length / windowFrames));
  for (let k = 0; k < means.length; k++) {
    means[k] = meanOf(energies.subarray(k * windowFrames, (k + 1) * windowFrames));
  }
  return means;
}

/** The exponential that the response ends in, by windows; null when there is none to be seen above the floor. */
function lateDecay(powers: Float64Array, floorPower: number) {
  if (floorPower === 0) return null;
  const aboveFloorDb = powers.map((power) => 10 * Math.log10(power / floorPower));
  const [low, high] = lateRangeDb;
  const last = aboveFloorDb.findLastIndex((db) => db >= low);
  const first = aboveFloorDb.findLastIndex((db) => db >= high) + 1;
  const windows = Array.from({ length: Math.max(0, last - first + 1) }, (_, k) => first + k).filter((k) =>
    Number.isFinite(aboveFloorDb[k]),
  );
  if (windows.length < 3) return null;
  const levels = windows.map((k) => aboveFloorDb[k]);
  const slope = slopeOf(windows, levels);
  if (!(slope < 0)) return null;
  const middle = meanOf(Float64Array.from(windows)) + 0.5;
  const middleDb = meanOf(Float64Array.from(levels));
  return {
    meetsFloorAt: middle - middleDb / slope,
    /** Integral of the exponential from `window` on, in power times windows. */
    energyBehind: (window: number) =>
      (floorPower * 10 ** ((middleDb + slope * (window - middle)) / 10)) / ((-slope * Math.LN10) / 10),
  };
}

function backwardSum(energies: Float64Array, beyond: number): Float64Array {
  const remaining = new Float64Array(energies.length);
  let sum = beyond;
  for (let n = energies.length - 1; n >= 0; n--) {
    sum += energies[n];
    remaining[n] = sum;
  }
  return remaining;
}

function meanOf(values: Float64Array): number {
  let sum = 0;
  for (let n = 0; n < values.length; n++) sum += values[n];
  return sum / values.length;
}
