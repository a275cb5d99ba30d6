// A 3 s mono response against a general engine's convolver, and the reverb models against real time.
import nodeWebAudio from "node-web-audio-api";
import { pedalModels } from "../../src/rig/pedals/models.ts";
import { initialiseFft } from "../../src/sound/dsp/fft.ts";
import { defaultsOf } from "../../src/sound/dsp/kernel.ts";
import { inTurn, pluckedTake, ratio } from "./rounds.mjs";

const rateHz = 48_000;
const lengthSeconds = 60;
const blockFrames = 1024;

export async function benchReverbs() {
  await initialiseFft();
  const take = pluckedTake(lengthSeconds, rateHz);
  const response = exponentialNoise(3);
  const clips = new Map([["response.wav", [response]]]);
  const run =
    (model, settings = {}) =>
    () => {
      const use = { rateHz, inputs: 1, outputs: 1, interpolation: "cubic", clips };
      const kernel = pedalModels[model].kernel(
        { ...defaultsOf(pedalModels[model].settings), ...settings },
        use,
      );
      const output = new Float32Array(blockFrames);
      for (let at = 0; at < take.length; at += blockFrames) {
        const frames = Math.min(blockFrames, take.length - at);
        kernel.process([take.subarray(at, at + frames)], [output], frames);
      }
    };
  const seconds = await inTurn({
    response: run("response", { file: "response.wav" }),
    "node-web-audio-api": () => webAudioConvolver(take, response),
    plate: run("plate"),
    hall: run("hall"),
    spring: run("spring"),
  });
  const times = (name) => ratio(lengthSeconds / seconds[name]);
  return [
    `3 s mono response, 60 s: ${times("response")} real time`,
    `  against node-web-audio-api: ${ratio(seconds["node-web-audio-api"] / seconds.response)} (wanted 20)`,
    `mono reverbs, 60 s: plate ${times("plate")}, hall ${times("hall")}, spring ${times("spring")} real time (wanted 400)`,
  ];
}

function exponentialNoise(seconds) {
  let seed = 99;
  return Float32Array.from({ length: seconds * rateHz }, (_, n) => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return (seed / 2 ** 31 - 1) * 10 ** ((-3 * n) / (seconds * rateHz)) * 0.01;
  });
}

async function webAudioConvolver(take, response) {
  const { OfflineAudioContext } = nodeWebAudio;
  const context = new OfflineAudioContext(1, take.length, rateHz);
  const buffer = context.createBuffer(1, take.length, rateHz);
  buffer.copyToChannel(Float32Array.from(take), 0);
  const source = context.createBufferSource();
  source.buffer = buffer;
  const impulse = context.createBuffer(1, response.length, rateHz);
  impulse.copyToChannel(response, 0);
  const convolver = context.createConvolver();
  convolver.normalize = false;
  convolver.buffer = impulse;
  source.connect(convolver).connect(context.destination);
  source.start();
  await context.startRendering();
}
