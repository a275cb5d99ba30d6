import { powerToDb } from "../../sound/dsp/units.js";

/** Lines of the mains in a recording's silence. */
export interface MainsHum {
  readonly mainsHz: 50 | 60;
  /** RMS of the lines together, dBFS of full scale 1. */
  readonly levelDbfs: number;
}

/** Multiples of the mains that are looked for. */
const multiples = 8;
/** Below this it is of no account. */
const leastDbfs = -90;
/** A line stands this far over the median of its neighbours; a single one by more. White noise does so once in a million. */
const lineRatio = 20;
const loneRatio = 200;
const leastSeconds = 0.25;

/**
 * Hum of the mains: power at multiples of 50 and 60 Hz under a Hann window against that 3 to 8 bins beside them.
 *
 * @param silence a stretch without the tone
 * @returns null where none stands out
 */
export function mainsHumOf(silence: ArrayLike<number>, rateHz: number): MainsHum | null {
  const count = silence.length;
  if (count < leastSeconds * rateHz) return null;
  const windowed = windowedOf(silence);
  const found = ([50, 60] as const).map((mainsHz) => {
    const lines = Array.from({ length: multiples }, (_, k) => (k + 1) * mainsHz)
      .filter((hz) => hz < 0.45 * rateHz)
      .flatMap((hz) => {
        const power = powerAt(windowed, hz, rateHz);
        const beside = besideBins.map((bins) => powerAt(windowed, hz + (bins * rateHz) / count, rateHz));
        const ratio = power / median(beside);
        return ratio > lineRatio ? [{ power, ratio }] : [];
      });
    const isHum = lines.length > 1 || lines.some(({ ratio }) => ratio > loneRatio);
    return { mainsHz, lines: isHum ? lines : [] };
  });
  const [best] = found.sort((a, b) => sumOf(b.lines) - sumOf(a.lines));
  if (best.lines.length === 0) return null;
  const levelDbfs = powerToDb(sumOf(best.lines));
  return levelDbfs < leastDbfs ? null : { mainsHz: best.mainsHz, levelDbfs };
}

const besideBins = [-8, -7, -6, -5, -4, -3, 3, 4, 5, 6, 7, 8];

const sumOf = (lines: readonly { readonly power: number }[]): number =>
  lines.reduce((sum, { power }) => sum + power, 0);

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1];

/** What is there under a Hann window, and the window's sum. */
function windowedOf(signal: ArrayLike<number>): Windowed {
  let sum = 0;
  const samples = Float64Array.from(signal, (x, n) => {
    const weight = 0.5 - 0.5 * Math.cos((2 * Math.PI * n) / signal.length);
    sum += weight;
    return weight * x;
  });
  return { samples, sum };
}
interface Windowed {
  readonly samples: Float64Array;
  readonly sum: number;
}

/**
 * Mean square of the line at one frequency: |sum w x e^(-jwn)|^2 / sum(w)^2 * 2, the sum as Goertzel 1958 runs it (Amer.
 * Math. Monthly 65(1), from memory): s[n] = x[n] + 2 cos(w) s[n-1] - s[n-2], |X|^2 = s1^2 + s2^2 - 2 cos(w) s1 s2.
 */
function powerAt({ samples, sum }: Windowed, hz: number, rateHz: number): number {
  const turn = 2 * Math.cos((2 * Math.PI * hz) / rateHz);
  let [last, before] = [0, 0];
  for (const x of samples) {
    const next = x + turn * last - before;
    before = last;
    last = next;
  }
  return (2 * (last * last + before * before - turn * last * before)) / sum ** 2;
}
