import type { LfoWave } from "../dsp/lfo.js";
import type { StandardContext, StandardNode } from "./webAudio.js";

export interface Swing {
  readonly lfoHz: number;
  /** Phase at the first frame. */
  readonly phaseDegrees: number;
  readonly wave?: LfoWave;
}

/**
 * An OscillatorNode from -1 to 1 that starts at any phase. The standard's own start at 0, so the wave is given by its
 * Fourier series, each partial k turned by k times the phase:
 *
 *     b sin(k(wt + p)) = b sin(kp) cos(kwt) + b cos(kp) sin(kwt)
 *
 * Source: W3C Web Audio API, PeriodicWave (real: cosines, imag: sines).
 */
export function oscillator(
  context: StandardContext,
  { lfoHz, phaseDegrees, wave = "sine" }: Swing,
): StandardNode {
  const size = wave === "sine" ? 1 : trianglePartials;
  const real = new Float32Array(size + 1);
  const imag = new Float32Array(size + 1);
  for (let k = 1; k <= size; k += 2) {
    const angle = (k * phaseDegrees * Math.PI) / 180;
    const partial = wave === "sine" ? 1 : trianglePartial(k);
    real[k] = partial * Math.sin(angle);
    imag[k] = partial * Math.cos(angle);
  }
  const node = context.createOscillator();
  node.setPeriodicWave(context.createPeriodicWave(real, imag, { disableNormalization: true }));
  node.frequency.value = lfoHz;
  node.start();
  return node;
}

/** Any table of a few thousand points holds them; what is left out is 94 dB down in RMS. */
const trianglePartials = 511;

/** Partials of the triangle that peaks with its sine: 8/(pi k)^2, k odd, signs alternating. Source: Fourier series. */
const trianglePartial = (k: number): number => ((k % 4 === 1 ? 1 : -1) * 8) / (Math.PI * k) ** 2;
