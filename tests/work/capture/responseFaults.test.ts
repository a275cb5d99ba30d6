import { describe, expect, test } from "vitest";
import type { Clip } from "../../../src/sound/audio/clip.js";
import { UserError } from "../../../src/text/userError.js";
import { makeTone } from "../../../src/work/capture/makeTone.js";
import { responseOf } from "../../../src/work/capture/responseOf.js";
import { firstOf } from "../../longForm.js";
import { noise, sine } from "../../signals.js";
import { guitar, guitarNames } from "./guitars.js";
import { playThrough } from "./simulatedLoop.js";

const tone = { lengthSeconds: 2, gapSeconds: 0.5, leadInSeconds: 0.5 };
const rateHz = 48_000;
const [sound] = makeTone(tone).clip.channels;
const mono = (channel: Float32Array): Clip => ({ rateHz, channels: [channel] });

function expectFault(clip: Clip, words: RegExp, options = {}) {
  const attempt = () => responseOf(clip, tone, options);
  expect(attempt).toThrow(UserError);
  expect(attempt).toThrow(words);
}

describe("recordings that cannot be used: each named, with what to do", () => {
  test("another rate", () => {
    expectFault(
      { rateHz: 44_100, channels: [sound] },
      /at 44100 Hz, the tone at 48000 Hz. Record at the tone's rate/,
    );
  });
  test("clipped by the recorder", () => {
    const clipped = sound.map((x) => Math.max(-1, Math.min(1, 6 * x)));
    expectFault(mono(clipped), /clipped: \d+ flat tops at 0.0 dBFS. Turn the recording level down/);
  });
  test("silent, empty, not numbers, six channels", () => {
    expectFault(mono(new Float32Array(48_000)), /holds no sound/);
    expectFault(mono(new Float32Array(0)), /is empty/);
    expectFault(mono(sound.map((x, n) => (n === 100 ? Number.NaN : x))), /not numbers/);
    expectFault({ rateHz, channels: Array(6).fill(sound) }, /6 channels; one or two/);
  });
  test("too short: ends before the tone does", () => {
    expectFault(
      mono(sound.slice(0, -60_000)),
      /too short: it ends at .* s, the tone in it at .* s. Record until/,
    );
  });
  test("started too late", () => {
    expectFault(mono(sound.slice(30_000)), /starts after the tone.*Start the recorder first/);
  });
  test("fewer sweeps than the tone had", () => {
    const once = sound.slice();
    once.fill(0, Math.round(sound.length / 2), sound.length);
    expectFault(mono(once), /holds 1 of 2 sweeps/);
  });
  test("one dead side, unless the live one is asked for", () => {
    const dead = { rateHz, channels: [sound, new Float32Array(sound.length)] };
    expectFault(dead, /its right side is dead.*take the left alone \(--channel left\)/);
    expect(responseOf(dead, tone, { channel: "left" }).channels[0].channel).toBe("left");
    const humming = noise({ seed: 9, frames: sound.length, rms: 1e-5 });
    expectFault({ rateHz, channels: [humming, sound] }, /its left side is dead/);
  });
  test("a reference that is not there, or is the unit itself", () => {
    expectFault(mono(sound), /a reference needs a stereo recording/, { referenceChannel: "left" });
    const both = { rateHz, channels: [sound, sound] };
    expectFault(both, /cannot be both/, { referenceChannel: "left", channel: "left" });
  });
});

describe("recordings of something else", () => {
  test.each(firstOf(guitarNames, 2))("%s: the CC0 recording", async (name) => {
    const { channels } = await guitar(name);
    expectFault(mono(channels[0]), /does not hold this test tone/);
  });
  test("noise, a sine, a click, a tone with other settings", () => {
    const click = new Float32Array(480_000);
    click[200_000] = 0.5;
    const other = makeTone({ ...tone, lengthSeconds: 5, fromHz: 40 }).clip.channels[0];
    for (const channel of [
      noise({ seed: 1, frames: 480_000 }),
      sine({ frequencyHz: 440, rateHz, lengthSeconds: 8, peakDbfs: -6 }),
      click,
      other,
    ]) {
      expectFault(mono(channel), /does not hold this test tone|its first mark is cut off/);
    }
  });
});

test("flat tops below full scale are told, not refused", () => {
  const { statements } = responseOf(mono(sound.map((x) => Math.max(-0.2, Math.min(0.2, x)))), tone);
  expect(statements.join()).toMatch(/flat tops at -14.0 dBFS: something on the way clips/);
});

test("the recording is left as it was", () => {
  const recording = playThrough(sound, { driftPpm: 50, lateFrames: 4800 }, rateHz);
  const before = recording.channels[0].slice();
  responseOf(recording, tone);
  expect(recording.channels[0]).toEqual(before);
});
