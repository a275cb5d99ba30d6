// A stereo chorus on 60 s: one voice a side, LFOs 90 degrees apart, against two general engines doing the same.
import nodeWebAudio from "node-web-audio-api";
import * as webAudio from "web-audio-api";
import { chorus } from "../../src/rig/pedals/chorus.ts";
import { defaultsOf } from "../../src/sound/dsp/kernel.ts";
import { inTurn, pluckedTake, ratio } from "./rounds.mjs";

const rateHz = 48_000;
const lengthSeconds = 60;
const blockFrames = 1024;

export async function benchChorus() {
  const take = pluckedTake(lengthSeconds, rateHz);
  const ours = (interpolation) => () => {
    const settings = defaultsOf(chorus.settings);
    const use = { rateHz, inputs: 1, outputs: 2, interpolation, clips: new Map() };
    const kernel = chorus.kernel(settings, use);
    const outputs = [new Float32Array(blockFrames), new Float32Array(blockFrames)];
    for (let at = 0; at < take.length; at += blockFrames) {
      const frames = Math.min(blockFrames, take.length - at);
      kernel.process([take.subarray(at, at + frames)], outputs, frames);
    }
  };
  const seconds = await inTurn({
    cubic: ours("cubic"),
    linear: ours("linear"),
    "web-audio-api": () => webAudioChorus(webAudio, take),
    "node-web-audio-api": () => webAudioChorus(nodeWebAudio, take),
  });
  const against = (name) =>
    `${ratio(seconds[name] / seconds.cubic)}, with linear reads like its own ${ratio(seconds[name] / seconds.linear)}`;
  return [
    `stereo chorus, 60 s: ${ratio(lengthSeconds / seconds.cubic)} real time (cubic), ${ratio(lengthSeconds / seconds.linear)} (linear)`,
    `  against node-web-audio-api: ${against("node-web-audio-api")} (wanted 4)`,
    `  against web-audio-api: ${against("web-audio-api")} (wanted 15)`,
  ];
}

async function webAudioChorus({ OfflineAudioContext }, take) {
  const context = new OfflineAudioContext(2, take.length, rateHz);
  const buffer = context.createBuffer(1, take.length, rateHz);
  buffer.copyToChannel(Float32Array.from(take), 0);
  const source = context.createBufferSource();
  source.buffer = buffer;
  const merger = context.createChannelMerger(2);
  for (const side of [0, 1]) {
    const delay = context.createDelay(0.1);
    delay.delayTime.value = 0.005;
    const lfo = context.createOscillator();
    lfo.frequency.value = 0.6;
    const depth = context.createGain();
    depth.gain.value = 0.002;
    lfo.connect(depth).connect(delay.delayTime);
    lfo.start((side * 0.25) / 0.6);
    source.connect(delay).connect(merger, 0, side);
  }
  merger.connect(context.destination);
  source.start();
  await context.startRendering();
}
