import { expect, test } from "vitest";
import wavDecoder from "wav-decoder";
import { decodeCompressed } from "../../../src/node/audio/decodeCompressed.js";
import { beginPage } from "../../../src/node/page/page.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { pedal, rigOf } from "../../rigs.js";
import { noise } from "../../signals.js";
import { monoMeasures, reportOf } from "../../words/reports.js";

const rig = rigOf([pedal("Weir", "tremolo", "mono-to-stereo"), pedal("Room", "plate", "mono")]);
const routings = routingsOf(rig);
const report = reportOf({ "series-mono": monoMeasures });

/** What stands in one of the page's data elements. */
async function dataOf(id: string, samples: Float32Array, rateHz: number, change = {}) {
  const facts = { file: "take.wav", sha256: "0", channels: 1, notices: [], silent: false };
  const take = { ...facts, samples, frames: samples.length, rateHz };
  const page = beginPage({ rig, take, routings, clips: new Map(), tailSeconds: 10, ...change });
  const html = await page.finish(report);
  const text = html.split(`id="${id}">`)[1].split("</script>")[0];
  return JSON.parse(text);
}

const bytesOf = (text: string) => new Uint8Array(Buffer.from(text, "base64"));
const to24Bits = (samples: Float32Array) => samples.map((x) => Math.round(x * 2 ** 23) / 2 ** 23);

/** Independent decoder: `web-audio-api`'s FLAC, which divides by 2^23 - 1. */
test("a 24-bit take travels as FLAC, to the bit", async () => {
  const samples = to24Bits(noise({ seed: 1, frames: 10_000, rms: 0.1 }));
  const {
    takes: [{ take }],
  } = await dataOf("splitsum-inputs", samples, 48_000);
  expect([take.scale, take.isRounded]).toEqual([1, false]);
  const { channels } = await decodeCompressed(bytesOf(take.file), "FLAC", "take");
  expect(channels[0].map((x) => Math.round(x * (2 ** 23 - 1)) / 2 ** 23)).toEqual(samples);
});

/** 2^-24, half a step, is the rounding of 24 bits; scaled by 4 it is 2^-22. */
test("a float take over full scale is scaled to fit, and its rounding is told", async () => {
  const samples = noise({ seed: 2, frames: 10_000, rms: 0.5 }).map((x) => x * 1.7);
  samples[5] = 3.5;
  const {
    takes: [{ take }],
  } = await dataOf("splitsum-inputs", samples, 48_000);
  expect([take.scale, take.isRounded]).toEqual([4, true]);
  const { channels } = await decodeCompressed(bytesOf(take.file), "FLAC", "take");
  const off = channels[0].map((x, n) => Math.abs(Math.round(x * (2 ** 23 - 1)) / 2 ** 21 - samples[n]));
  expect(Math.max(...off)).toBeLessThanOrEqual(2 ** -22);
});

test.each([
  ["a rate that FLAC's encoder does not know", 69_313, 10_000],
  ["a take shorter than a block", 48_000, 100],
])("%s travels as WAV", async (_name, rateHz, frames) => {
  const samples = to24Bits(noise({ seed: 3, frames, rms: 0.1 }));
  const {
    takes: [{ take }],
  } = await dataOf("splitsum-inputs", samples, rateHz);
  const { sampleRate, channelData } = wavDecoder.decode.sync(bytesOf(take.file).buffer, { symmetric: true });
  expect(sampleRate).toBe(rateHz);
  expect(channelData[0]).toHaveLength(frames);
});

test("a take for which a page has no memory stays at home", async () => {
  const inputs = await dataOf("splitsum-inputs", new Float32Array(10), 48_000, { tailSeconds: 1e5 });
  expect(inputs.takes).toEqual([]);
  expect(inputs.rig).toEqual(rig);
});

/** 24 bits of stereo noise do not pack: 60 s at 48 kHz are 17 MB, and 23 million letters; the room is 20 million. */
test("recordings travel with their take as far as there is room", async () => {
  const [short, long] = [10_000, 60 * 48_000].map((frames, n) => {
    const left = to24Bits(noise({ seed: 5, frames, rms: 0.2 }));
    const right = to24Bits(noise({ seed: 6, frames, rms: 0.2 }));
    return { id: ["short", "long"][n], label: "", channels: [left, right] };
  });
  const inputs = await dataOf("splitsum-inputs", new Float32Array(60 * 48_000).fill(0.125), 48_000, {
    recordings: [long, short],
  });
  expect(inputs.takes).toHaveLength(1);
  expect(inputs.recordings.map(({ id }: { id: string }) => id)).toEqual(["short"]);
  const { channels } = await decodeCompressed(bytesOf(inputs.recordings[0].sound.file), "FLAC", "short");
  expect(channels).toHaveLength(2);
  expect(channels[0].map((x) => Math.round(x * (2 ** 23 - 1)) / 2 ** 23)).toEqual(short.channels[0]);
});

test("the report travels", async () => {
  const data = await dataOf("splitsum-data", new Float32Array(10), 48_000);
  expect(data).toEqual({ report, opensOn: "short" });
});
