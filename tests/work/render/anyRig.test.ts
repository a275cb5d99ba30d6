import fc from "fast-check";
import { expect, test } from "vitest";
import type { Rig } from "../../../src/rig/model/rig.js";
import { initialiseFft } from "../../../src/sound/dsp/fft.js";
import { measureClip } from "../../../src/sound/measure/stereoMeter.js";
import { runsOf } from "../../longForm.js";
import { anyRig } from "../../rig/file/anyRig.js";
import { noise } from "../../signals.js";
import { renderRig } from "./renders.js";

await initialiseFft();
const rateHz = 16_000;
const take = noise({ seed: 3, frames: 4000, rms: 0.2 });

/** The generator's rigs hold trims of +24 dB a pedal; what is promised is bounded sound for a bounded take. */
test("any rig that validates renders finite output of one length in every routing", () => {
  fc.assert(
    fc.property(anyRig(4), (rig: Rig) => {
      const renders = Object.entries(renderRig(rig, take, rateHz, { tailSeconds: 0.25 }));
      expect(renders.length).toBeGreaterThan(0);
      const frames = renders[0][1][0].length;
      expect(frames).toBeGreaterThanOrEqual(take.length);
      for (const [id, channels] of renders) {
        for (const channel of channels) {
          expect(channel.length, id).toBe(frames);
          expect(channel.every(Number.isFinite), `${id} is finite`).toBe(true);
        }
        const { correlation, sideShare } = measureClip({ rateHz, channels });
        if (correlation !== null) expect(Math.abs(correlation), id).toBeLessThanOrEqual(1);
        if (sideShare !== null) expect(sideShare, id).toBeGreaterThanOrEqual(0);
      }
    }),
    { numRuns: runsOf(14), seed: 20_261 },
  );
});

test("any rig renders the same bits in blocks of any size", () => {
  fc.assert(
    fc.property(anyRig(3), fc.constantFrom(1, 7, 64, 511, 65_536), (rig, blockFrames) => {
      const short = take.subarray(0, 700);
      const expected = renderRig(rig, short, rateHz, { tailSeconds: 0.02 });
      expect(renderRig(rig, short, rateHz, { tailSeconds: 0.02, blockFrames })).toEqual(expected);
    }),
    { numRuns: runsOf(10), seed: 20_262 },
  );
});
