import type { Given, Known } from "./facts.js";

/** Why measures have no value, in plain words, where several have the same reason. */

export const takesRender = "known of rendered sound only";

export function silenceOf({ frames, whole }: Known): string | null {
  if (frames === 0) return "there is no sound: 0 frames";
  return whole && !(whole.left + whole.right > 0) ? "the sound is silent" : null;
}

export const sideSilent = ({ whole }: Given<"whole">): string =>
  `the ${whole.left > 0 ? "right" : "left"} channel is silent`;

export const notLoud = (facts: Known): string =>
  shorterThan(0.4, facts) ?? "never above -70 LUFS, where measuring loudness starts";

export function shorterThan(leastSeconds: number, { frames, rateHz }: Known): string | null {
  const seconds = frames / rateHz;
  if (seconds >= leastSeconds) return null;
  return `the sound lasts ${seconds.toFixed(3)} s; this takes ${leastSeconds} s`;
}
