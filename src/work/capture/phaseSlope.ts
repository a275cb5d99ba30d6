import { type Spectrum, sizeOf } from "./sweepSpectrum.js";

/** How late one signal is behind another, and how well the two agree there. */
export interface PhaseFit {
  /** Positive: the second is late. Frames, to a small fraction. */
  readonly delayFrames: number;
  /** sum Re(S e^(j w d)) over sum |S|: 1 all bins agree, 0 none, -1 all agree with opposite polarity. */
  readonly agreement: number;
}

/**
 * Delay from the slope of a cross-spectrum's phase, which is -w d for a pure delay of d frames: least squares with
 * |S| as the weight, repeated until it stands still. The sine of each phase error is taken for the error itself, so
 * that a bin half a turn off pulls nowhere. Opposite polarity is half a turn at every bin and is taken out first.
 *
 * @param cross conj(A) B, zeros where it shall not count; |S| is the weight of a bin
 * @param startFrames a first guess, within half a period of the middle of the band
 * Source: Knapp and Carter 1976, IEEE Trans. ASSP 24(4) (generalised cross-correlation), from memory; the step is a
 * Newton step towards the peak of that correlation.
 */
export function fitPhaseSlope(cross: Spectrum, startFrames: number): PhaseFit {
  const size = sizeOf(cross);
  let delayFrames = startFrames;
  let agreement = 0;
  for (let round = 0; round < 12; round++) {
    const { sum, slope, curve, weight } = phaseSums(cross, delayFrames, size);
    agreement = weight > 0 ? sum / weight : 0;
    const step = curve > 0 ? (-slope / curve) * (sum < 0 ? -1 : 1) : 0;
    delayFrames += Math.max(-0.5, Math.min(0.5, step));
    if (Math.abs(step) < 1e-9) break;
  }
  return { delayFrames, agreement };
}

/** sum Re(S e^(jwd)), its derivative by -d, the weight of the squares, and sum |S|. */
function phaseSums(cross: Spectrum, delayFrames: number, size: number) {
  const { re, im } = cross;
  const step = (2 * Math.PI) / size;
  let sum = 0;
  let slope = 0;
  let curve = 0;
  let weight = 0;
  for (let k = 1; k < re.length - 1; k++) {
    const a = re[k];
    const b = im[k];
    if (a === 0 && b === 0) continue;
    const w = k * step;
    const c = Math.cos(w * delayFrames);
    const s = Math.sin(w * delayFrames);
    const size1 = Math.sqrt(a * a + b * b);
    sum += a * c - b * s;
    slope += w * (a * s + b * c);
    curve += w * w * size1;
    weight += size1;
  }
  return { sum, slope, curve, weight };
}
