import { expect, test } from "vitest";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { initialiseFft } from "../../../src/sound/dsp/fft.js";
import type { Kernel } from "../../../src/sound/dsp/kernel.js";
import { LateStart } from "../../../src/work/render/lateStart.js";
import { pedal, rigOf } from "../../rigs.js";
import { noise } from "../../signals.js";
import { renderWirings } from "./renders.js";

await initialiseFft();
const rateHz = 48_000;
const take = noise({ seed: 3, frames: 12_000 });

/**
 * "LFO phase of the left output when the take starts": a pedal ahead that changes nothing but comes late by its own
 * working (a response that is a single 1: 16 384 frames) must not move it. Law, no source.
 */
test.each(["tremolo", "vibrato", "chorus", "phaser"])(
  "what stands ahead does not move the LFO of a %s",
  (model) => {
    const swung = pedal("Swung", model, "mono-to-stereo", { lfoHz: 4, phaseDegrees: 50 });
    const wire = pedal("Wire", "response", "mono", { file: "one", mix: 1 });
    const render = (pedals: Parameters<typeof rigOf>[0]) => {
      const wiring = routingsOf(rigOf(pedals))[0].wiring!;
      return renderWirings([wiring], take, rateHz, { clips: new Map([["one", [Float32Array.of(1)]]]) })[0];
    };
    const alone = render([swung]);
    render([wire, swung]).forEach((channel, c) => {
      for (let n = 0; n < take.length; n++) expect(Math.abs(channel[n] - alone[c][n])).toBeLessThan(1e-6);
    });
  },
);

/** The kernel sees its first frame at the start, whatever blocks it comes in. */
test.each([1, 7, 100, 4096])("starts at its frame in blocks of %i", (blockFrames) => {
  const counter: Kernel & { at: number } = {
    at: 0,
    process([input], [output], frames) {
      for (let n = 0; n < frames; n++) output[n] = input[n] + ++this.at;
    },
  };
  const late = new LateStart(counter, 150);
  const input = new Float32Array(1000);
  const output = new Float32Array(1000).fill(9);
  for (let from = 0; from < 1000; from += blockFrames) {
    const to = Math.min(1000, from + blockFrames);
    late.process([input.subarray(from, to)], [output.subarray(from, to)], to - from);
  }
  expect([...output]).toEqual(Array.from({ length: 1000 }, (_, n) => Math.max(0, n - 149)));
});
