import { fftSizeFor } from "../../sound/dsp/analysisFft.js";
import { realFftOf } from "../../sound/dsp/realAnalysisFft.js";
import { powerToDb } from "../../sound/dsp/units.js";
import type { RecordedNoise } from "./recordedNoise.js";
import { spectrumOf } from "./sweepSpectrum.js";
import type { ToneLayout } from "./toneLayout.js";

/** What the unit makes of order n of the tone, at the tone's level. */
export interface HarmonicFacts {
  readonly order: number;
  /** Power at n f to power at f, mean over log f from the band's start to its end / n; null: nothing over the noise. */
  readonly levelDb: number | null;
  /** What the recorded silence alone would read as; null when it is digital silence. */
  readonly floorDb: number | null;
  /** How far ahead of the first arrival the order's response peaks. */
  readonly aheadFrames: number;
}

const orders = [2, 3, 4, 5];
/** Share of the distance to the next order that each order's window opens ahead of its place. */
const earlyShare = 0.25;

/** L ln n: how far ahead of the linear response the products of order n land. Source: Farina 2000. */
export const harmonicAheadFrames = (layout: ToneLayout, order: number): number =>
  layout.timeConstantSeconds * Math.log(order) * layout.settings.rateHz;

/**
 * Levels of orders 2 to 5 to the linear response.
 *
 * @param response circular response with its first arrival at `onsetFrames`, filled beyond the band: a band that ends
 *   at once would ring into the windows of the orders
 * @param to one past the linear response's last frame
 */
export function harmonicsOf(
  response: Float64Array,
  onsetFrames: number,
  to: number,
  layout: ToneLayout,
  noise: RecordedNoise,
): HarmonicFacts[] {
  const [lowHz, highHz] = layout.bandHz;
  const startOf = (order: number) => {
    const ahead = harmonicAheadFrames(layout, order);
    const apart = harmonicAheadFrames(layout, order + 1) - ahead;
    return Math.round(onsetFrames - ahead - earlyShare * apart);
  };
  const linear = windowed(response, startOf(1), Math.max(to, 2 * Math.round(onsetFrames) - startOf(1)));
  return orders.map((order) => {
    const [from, end] = [startOf(order), startOf(order - 1)];
    const product = windowed(response, from, end);
    const fundamental = logPower(linear, layout, lowHz, highHz / order);
    const level = logPower(product, layout, order * lowHz, highHz);
    const floor = (end - from) * noiseLogPower(noise, layout, order * lowHz, highHz);
    const aboveNoise = level > 2 * floor && level > 1e-12 * fundamental;
    return {
      order,
      levelDb: aboveNoise ? powerToDb((level - floor) / fundamental) : null,
      floorDb: floor > 0 ? powerToDb(floor / fundamental) : null,
      aheadFrames: onsetFrames - (from + largest(product)),
    };
  });
}

/** Frames `from` to `to` of a circular response, with a raised-cosine edge over an eighth of it at both ends. */
function windowed(response: Float64Array, from: number, to: number): Float64Array {
  const size = response.length;
  const count = Math.min(size, to - from);
  const edge = Math.max(1, Math.floor(count / 8));
  return Float64Array.from({ length: count }, (_, n) => {
    const inside = Math.min(1, (n + 0.5) / edge, (count - n - 0.5) / edge);
    return response[(((from + n) % size) + size) % size] * (0.5 - 0.5 * Math.cos(Math.PI * inside));
  });
}

/** Integral of |H|^2 over ln f. */
function logPower(signal: Float64Array, layout: ToneLayout, lowHz: number, highHz: number): number {
  const fft = realFftOf(fftSizeFor(Math.max(4096, signal.length)));
  const { re, im } = spectrumOf(signal, fft);
  return overLogFrequency((k) => re[k] * re[k] + im[k] * im[k], fft.size, layout, lowHz, highHz);
}

function noiseLogPower(noise: RecordedNoise, layout: ToneLayout, lowHz: number, highHz: number): number {
  const powers = noise.responsePowerAt;
  const averaged = layout.settings.repeats;
  return overLogFrequency((k) => powers[k] / averaged, 2 * (powers.length - 1), layout, lowHz, highHz);
}

function overLogFrequency(
  powerAt: (bin: number) => number,
  size: number,
  layout: ToneLayout,
  lowHz: number,
  highHz: number,
): number {
  const binHz = layout.settings.rateHz / size;
  let sum = 0;
  for (let k = Math.ceil(lowHz / binHz); k <= highHz / binHz; k++) sum += powerAt(k) / k;
  return sum;
}

function largest(signal: Float64Array): number {
  let best = 0;
  for (let n = 0; n < signal.length; n++) if (Math.abs(signal[n]) > Math.abs(signal[best])) best = n;
  return best;
}
