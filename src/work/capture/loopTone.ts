import { powerToDb } from "../../sound/dsp/units.js";
import type { SharedSpectra } from "./coherence.js";

/** sum Re(Sab e^(j w d)) / sum Saa: the loop's gain at delay d by least squares, with its sign; noise drops out. */
export function directGain(
  { cross, power, size }: Pick<SharedSpectra, "cross" | "power" | "size">,
  delayFrames: number,
  [first, last]: readonly [number, number] = [1, size / 2],
): number {
  let [shared, all] = [0, 0];
  for (let k = first; k < last; k++) {
    const angle = (2 * Math.PI * k * delayFrames) / size;
    shared += cross.re[k] * Math.cos(angle) - cross.im[k] * Math.sin(angle);
    all += power[k];
  }
  return shared / all;
}

/**
 * How far the third octaves of what follows the take depart from its gain: RMS of the departures in dB, weighted by the
 * take's energy in each; 0 for the same tone.
 */
export function spectralMatchDb(
  { cross, power, coherence, size }: SharedSpectra,
  gain: number,
  rateHz: number,
): number {
  let [squares, weights] = [0, 0];
  for (let centreHz = 31.25; centreHz < 0.4 * rateHz; centreHz *= 2 ** (1 / 3)) {
    const [first, last] = [-1 / 6, 1 / 6].map((octaves) =>
      Math.round((centreHz * 2 ** octaves * size) / rateHz),
    );
    let [shared, all] = [0, 0];
    for (let k = first; k < last; k++) {
      if (coherence[k] === 0) continue;
      shared += (cross.re[k] ** 2 + cross.im[k] ** 2) / power[k];
      all += power[k];
    }
    if (all === 0) continue;
    squares += all * powerToDb(shared / all / gain ** 2) ** 2;
    weights += all;
  }
  return weights > 0 ? Math.sqrt(squares / weights) : 0;
}
