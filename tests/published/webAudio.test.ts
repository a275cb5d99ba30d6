import { expect, test } from "vitest";
import { type AudioNode, OfflineAudioContext } from "web-audio-api";
import { soundOf, wetOf } from "../rig/pedals/runPedal.js";
import { noise } from "../signals.js";

/**
 * The same circuits from standard nodes of the W3C Web Audio API, by an independent engine: OscillatorNode into a
 * DelayNode's delayTime or a GainNode's gain. That engine's numbers are single precision, hence the limits.
 */
const rateHz = 48_000;
const input = noise({ seed: 11, frames: rateHz / 2, rms: 0.2 });

test("vibrato with linear reads is an oscillator on a DelayNode", async () => {
  const [depthMs, lfoHz] = [1.8, 3];
  const theirs = await render((context, source) => {
    const delay = context.createDelay(1);
    delay.delayTime.value = (depthMs + 0.15) / 1000;
    swing(context, lfoHz, depthMs / 1000).connect(delay.delayTime);
    return source.connect(delay);
  });
  const settings = { depthMs, lfoHz };
  const [ours] = wetOf({ model: "vibrato", settings, input: [input], rateHz, interpolation: "linear" });
  expect(differenceDb(ours, theirs)).toBeLessThan(-100);
  const [cubic] = wetOf({ model: "vibrato", settings, input: [input], rateHz });
  expect(differenceDb(cubic, theirs), "cubic reads keep more of the top").toBeGreaterThan(-20);
});

test("tremolo is an oscillator on a GainNode", async () => {
  const [depth, lfoHz] = [0.7, 5];
  const theirs = await render((context, source) => {
    const gain = context.createGain();
    gain.gain.value = 1 - depth / 2;
    swing(context, lfoHz, depth / 2).connect(gain.gain);
    return source.connect(gain);
  });
  const [ours] = soundOf({ model: "tremolo", settings: { depth, lfoHz }, input: [input], rateHz });
  expect(differenceDb(ours, theirs)).toBeLessThan(-100);
});

test("a single repeat is a DelayNode", async () => {
  const theirs = await render((context, source) => {
    const delay = context.createDelay(1);
    delay.delayTime.value = 0.1;
    return source.connect(delay);
  });
  const settings = { delayMs: 100, feedback: 0 };
  const [ours] = wetOf({ model: "delay", settings, input: [input], rateHz });
  expect(differenceDb(ours, theirs)).toBeLessThan(-100);
});

async function render(
  build: (context: OfflineAudioContext, source: AudioNode) => AudioNode,
): Promise<Float32Array> {
  const context = new OfflineAudioContext(1, input.length, rateHz);
  const buffer = context.createBuffer(1, input.length, rateHz);
  buffer.getChannelData(0).set(input);
  const source = context.createBufferSource();
  source.buffer = buffer;
  build(context, source).connect(context.destination);
  source.start();
  return (await context.startRendering()).getChannelData(0);
}

/** A sine of the given size, from phase 0. */
function swing(context: OfflineAudioContext, lfoHz: number, size: number): AudioNode {
  const oscillator = context.createOscillator();
  oscillator.frequency.value = lfoHz;
  const gain = context.createGain();
  gain.gain.value = size;
  oscillator.start();
  return oscillator.connect(gain);
}

function differenceDb(ours: Float32Array, theirs: Float32Array): number {
  let [off, all] = [0, 0];
  for (let n = 0; n < ours.length; n++) {
    off += (ours[n] - theirs[n]) ** 2;
    all += theirs[n] ** 2;
  }
  return 10 * Math.log10(off / all);
}
