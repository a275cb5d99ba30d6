/** Sum of x[n] e^(-i 2 pi f n / rate): real and imaginary part. */
export function dtft(signal: ArrayLike<number>, frequencyHz: number, rateHz: number): [number, number] {
  const step = (2 * Math.PI * frequencyHz) / rateHz;
  let re = 0;
  let im = 0;
  for (let n = 0; n < signal.length; n++) {
    re += signal[n] * Math.cos(step * n);
    im -= signal[n] * Math.sin(step * n);
  }
  return [re, im];
}

/** |H| of an impulse response at one frequency. */
export const gainAt = (response: ArrayLike<number>, frequencyHz: number, rateHz: number): number =>
  Math.hypot(...dtft(response, frequencyHz, rateHz));

/** The same in dB. */
export const gainDbAt = (response: ArrayLike<number>, frequencyHz: number, rateHz: number): number =>
  20 * Math.log10(gainAt(response, frequencyHz, rateHz));

/** Amplitude of a steady tone in a stretch of whole periods. */
export const toneAmplitude = (signal: ArrayLike<number>, frequencyHz: number, rateHz: number): number =>
  (2 / signal.length) * gainAt(signal, frequencyHz, rateHz);
