import fc from "fast-check";
import { expect, test } from "vitest";
import { PcmEncoder } from "../../../src/sound/audio/encodePcm.js";
import { TruePeakMeter } from "../../../src/sound/measure/truePeak.js";
import { byBoth, firstDifference, roughNoise } from "./twins.js";

const rates = fc.constantFrom(8000, 44_100, 48_000, 96_000, 192_000);
const blocks = fc.integer({ min: 1, max: 3000 });

test("true peaks are the same to the bit", () => {
  fc.assert(
    fc.property(rates, fc.nat(), blocks, (rateHz, seed, block) => {
      const sound = Float32Array.from(roughNoise(8000, seed));
      const { plain, simd } = byBoth(() => {
        const meter = new TruePeakMeter(rateHz);
        const seen: number[] = [];
        for (let at = 0; at < sound.length; at += block) {
          const part = sound.subarray(at, at + block).map((x, n) => x * (1 + (at + n) / 8000));
          meter.push(part, part.length);
          if (at > 0 && at + block < sound.length) continue;
          const { samplePeak, truePeak } = meter.result();
          seen.push(samplePeak, truePeak);
        }
        return [Float64Array.from(seen)];
      });
      expect(firstDifference(plain, simd)).toBeNull();
    }),
    { numRuns: 40 },
  );
});

test("stored samples are the same bytes, full scale and beyond it too", () => {
  const cases = fc.tuple(
    fc.constantFrom(1, 2),
    fc.nat(),
    fc.integer({ min: 1, max: 9000 }),
    fc.double({ min: 0, max: 1.2, noNaN: true }),
  );
  fc.assert(
    fc.property(cases, ([channels, seed, frames, gain]) => {
      const block = Array.from({ length: channels }, (_, n) =>
        Float32Array.from(roughNoise(frames, seed + n)),
      );
      const { plain, simd } = byBoth(() => {
        const encoder = new PcmEncoder({ channels, bits: 24 }, frames);
        const bytes = new Uint8Array(3 * channels * frames);
        encoder.encode(block, 0, frames, gain, bytes);
        return [Float64Array.from(bytes), Float64Array.of(encoder.clippedFrames)];
      });
      expect(firstDifference(plain, simd)).toBeNull();
    }),
    { numRuns: 60 },
  );
});
