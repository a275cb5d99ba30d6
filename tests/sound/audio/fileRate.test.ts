import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { encodeFlac } from "../../../src/sound/audio/encodeFlac.js";
import { fileRateHz, fileSeconds } from "../../../src/sound/audio/fileRate.js";
import { soundKind } from "../../../src/sound/audio/soundKind.js";
import { sine } from "../../signals.js";
import { expectWithin } from "../../within.js";

const fixture = (name: string) =>
  new Uint8Array(readFileSync(new URL(`./fixtures/${name}`, import.meta.url)));

/** Files of other programs; their rate is what `ffprobe` says. */
test.each(["tone-997.mp3", "tone-997.ogg", "tone-997.m4a"])("%s", (name) => {
  const bytes = fixture(name);
  expect(fileRateHz(bytes, soundKind(bytes)!, name)).toBe(44_100);
  // One second went in; the codecs pad it.
  expectWithin(fileSeconds(bytes, soundKind(bytes)!, name) ?? 0, 1, 0.1, "s");
});

test.each([48_000, 96_000, 22_050])("FLAC at %i Hz", async (rateHz) => {
  const bytes = await encodeFlac(
    [sine({ frequencyHz: 440, rateHz, lengthSeconds: 0.2, peakDbfs: -6 })],
    rateHz,
  );
  expect(fileRateHz(bytes, "FLAC", "tone.flac")).toBe(rateHz);
});

/** Heads as the documents draw them: a Vorbis and an Opus page, an MPEG 2 frame behind a tag. */
test("rates that the fixtures do not have", () => {
  const page = (packet: readonly number[]) =>
    Uint8Array.from([0x4f, 0x67, 0x67, 0x53, ...Array<number>(22).fill(0), 1, 30, ...packet]);
  const letters = (text: string) => [...text].map((letter) => letter.charCodeAt(0));
  const vorbis = [1, ...letters("vorbis"), 0, 0, 0, 0, 2, 0x80, 0xbb, 0, 0, ...Array<number>(14).fill(0)];
  expect(fileRateHz(page(vorbis), "Ogg", "x")).toBe(48_000);
  expect(fileRateHz(page([...letters("OpusHead"), ...Array<number>(11).fill(0)]), "Ogg", "x")).toBe(48_000);
  const tag = [...letters("ID3"), 4, 0, 0, 0, 0, 0, 3, 0xff, 0xfb, 0x90];
  expect(fileRateHz(Uint8Array.from([...tag, 0xff, 0xf3, 0x90, 0x00]), "MP3", "x")).toBe(22_050);
  expect(fileRateHz(Uint8Array.from([0xff, 0xe3, 0x94, 0x00]), "MP3", "x")).toBe(12_000);
  expect(fileRateHz(new Uint8Array(64), "M4A", "x")).toBeNull();
});
