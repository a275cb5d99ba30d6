import type { CountPlan } from "./countIn.js";

const clickHz = 1500;
const clickSeconds = 0.03;
/** So that the first one is not cut. */
const aheadSeconds = 0.05;

/**
 * The clicks of a count-in: short tones that rise and fall without a step.
 * @param gain    full scale 1
 * @param rateHz  of the input, which is as a rule the same interface
 * @returns what ends them at once
 */
export function playClicks({ atMs }: CountPlan, gain: number, rateHz: number): () => void {
  const context = new AudioContext({ latencyHint: "interactive", sampleRate: rateHz });
  const level = context.createGain();
  const tone = context.createOscillator();
  tone.frequency.value = clickHz;
  level.gain.value = 0;
  tone.connect(level).connect(context.destination);
  const begin = context.currentTime + aheadSeconds;
  for (const ms of atMs) {
    const at = begin + ms / 1000;
    level.gain.setValueAtTime(0, at);
    level.gain.linearRampToValueAtTime(gain, at + clickSeconds / 6);
    level.gain.linearRampToValueAtTime(0, at + clickSeconds);
  }
  tone.start();
  return () => void context.close();
}
