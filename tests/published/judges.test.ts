import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { expect, test } from "vitest";
import { OfflineAudioContext } from "web-audio-api";
import { measureClip } from "../../src/sound/measure/stereoMeter.js";
import { noise } from "../signals.js";
import { judgedDbtp, judgedLufs } from "../sound/measure/ebur128.js";
import { levels, mix } from "../sound/measure/testTones.js";
import { expectWithin } from "../within.js";

const require = createRequire(import.meta.url);

/**
 * Guitar recordings of the CC0 package `supersonic-scsynth-samples`, decoded by the library `web-audio-api`: loudness and
 * true peak as the independent library `ebur128` reads them, within 0.1 LU (EBU Tech 3341) and 0.1 dB.
 */
test.each(["guit_em9", "guit_e_fifths", "guit_e_slide", "guit_harmonics"])(
  "%s, by an independent judge",
  async (name) => {
    const bytes = readFileSync(require.resolve(`supersonic-scsynth-samples/samples/${name}.flac`));
    const context = new OfflineAudioContext({ numberOfChannels: 1, length: 1, sampleRate: 44_100 });
    const sound = await context.decodeAudioData(bytes);
    const left = sound.getChannelData(0);
    const right = sound.getChannelData(sound.numberOfChannels - 1);
    const rateHz = sound.sampleRate;
    const { integratedLufs, truePeakDbtp } = measureClip({ rateHz, channels: [left, right] });
    expect(rateHz).toBe(44_100);
    expectWithin(integratedLufs, judgedLufs(rateHz, left, right), 0.1, "LUFS");
    expectWithin(truePeakDbtp, judgedDbtp(rateHz, left, right), 0.1, "dBTP");
  },
);

/** The same judge on noise and tones whose level changes, at other rates; it holds its numerator at every rate. */
test.each([44_100, 48_000, 69_313, 96_000, 192_000])(
  "noise and tones, by an independent judge, at %d Hz",
  (rateHz) => {
    const tones = levels(
      [
        [3, -30],
        [4, -12],
        [2, -50],
        [3, -18],
      ],
      rateHz,
      313,
    );
    const left = mix(tones, 1, noise({ seed: 1, frames: tones.length }), 0.02);
    const right = mix(tones, 0.4, noise({ seed: 2, frames: tones.length }), 0.1);
    const { integratedLufs, truePeakDbtp } = measureClip({ rateHz, channels: [left, right] });
    expectWithin(integratedLufs, judgedLufs(rateHz, left, right), 0.1, "LUFS");
    expectWithin(truePeakDbtp, judgedDbtp(rateHz, left, right), 0.1, "dBTP");
  },
);
