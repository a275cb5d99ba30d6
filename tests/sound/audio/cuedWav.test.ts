import { expect, test } from "vitest";
import decoder from "wav-decoder";
import { cuedWav } from "../../../src/sound/audio/cuedWav.js";
import { noise } from "../../signals.js";

const rateHz = 8000;
const left = noise({ seed: 1, frames: 801, rms: 0.1 });
const cues = [
  { frame: 0, label: "Dry take" },
  { frame: 400, label: "Hall, \u00fcber alles" },
];
const bytes = cuedWav({ rateHz, channels: [left, left] }, cues);
const view = new DataView(bytes.buffer);
const word = (at: number) => String.fromCharCode(...bytes.subarray(at, at + 4));

/** Chunks of the file by name. Source: Multimedia Programming Interface and Data Specifications 1.0 (1991), from memory. */
function chunks(from: number, to: number) {
  const found = new Map<string, DataView>();
  for (let at = from; at < to; ) {
    const size = view.getUint32(at + 4, true);
    found.set(word(at), new DataView(bytes.buffer, at + 8, size));
    at += 8 + size + (size % 2);
  }
  return found;
}

test("cue points stand at their frames, each with its label", () => {
  expect([word(0), view.getUint32(4, true), word(8)]).toEqual(["RIFF", bytes.length - 8, "WAVE"]);
  const all = chunks(12, bytes.length);
  expect([...all.keys()]).toEqual(["fmt ", "data", "cue ", "LIST"]);
  const cue = all.get("cue ")!;
  expect(cue.getUint32(0, true)).toBe(2);
  expect(cue.byteLength).toBe(4 + 2 * 24);
  const entries = [0, 1].map((n) => [cue.getUint32(4 + 24 * n, true), cue.getUint32(24 + 24 * n, true)]);
  expect(entries).toEqual([
    [1, 0],
    [2, 400],
  ]);
  const list = all.get("LIST")!;
  expect(word(list.byteOffset)).toBe("adtl");
  let at = list.byteOffset + 4;
  const labels: [number, string][] = [];
  while (at < list.byteOffset + list.byteLength) {
    const size = view.getUint32(at + 4, true);
    expect(word(at)).toBe("labl");
    expect(bytes[at + 8 + size - 1]).toBe(0);
    labels.push([
      view.getUint32(at + 8, true),
      new TextDecoder().decode(bytes.subarray(at + 12, at + 8 + size - 1)),
    ]);
    at += 8 + size + (size % 2);
  }
  expect(labels).toEqual([
    [1, "Dry take"],
    [2, "Hall, \u00fcber alles"],
  ]);
});

/** The library `wav-decoder` knows nothing of cue points, and must not be put off by them. */
test("the sound is whole to a reader that passes over cue points", () => {
  const { sampleRate, channelData } = decoder.decode.sync(Uint8Array.from(bytes).buffer);
  expect(sampleRate).toBe(rateHz);
  expect(channelData).toHaveLength(2);
  expect(channelData[0].length).toBe(801);
  for (let n = 0; n < 801; n++) expect(Math.abs(channelData[0][n] - left[n])).toBeLessThan(2 ** -22);
});
