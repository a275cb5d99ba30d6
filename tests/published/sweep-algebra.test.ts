import fc from "fast-check";
import { expect, test } from "vitest";
import { soundMeasuresOf } from "../../src/sound/measure/fill.js";
import { wetToDryMeasure } from "../../src/sound/measure/wetToDry.js";
import { MixAlgebra } from "../../src/work/sweep/mixAlgebra.js";
import { noise, randomNumbers } from "../signals.js";
import { expectWithin } from "../within.js";
import { expectSameMeasures } from "../work/sweep/expectSameMeasures.js";
import { metered, mixed, productsOf } from "../work/sweep/stems.js";

const rateHz = 44_100;

/**
 * Two unrelated noises a and b of powers A and B, mixed to left = a + r b and right = a - r b. Closed form, from
 * E(ab) = 0: with q = r^2 B / A, correlation (1 - q) / (1 + q), side share q / (1 + q), mono loss 10 log10(1 + q).
 */
test.each([0, 0.25, 1, 3])("two unrelated noises at a power ratio of %f", (q) => {
  const frames = 4 * rateHz;
  const a = noise({ seed: 1, frames });
  const b = unrelated(noise({ seed: 2, frames }), a);
  const r = Math.sqrt((q * energy(a)) / energy(b));
  const algebra = new MixAlgebra(productsOf([a, b], rateHz));
  const measures = soundMeasuresOf(algebra.factsOf({ left: [1, r], right: [1, -r], dry: null }));
  expectWithin(measures.correlation, (1 - q) / (1 + q), 1e-7);
  expectWithin(measures.sideShare, q / (1 + q), 1e-7);
  // By loudness: K-weighting colours both noises alike, but not sample by sample.
  expectWithin(measures.foldDownLossDb, 10 * Math.log10(1 + q), 0.1, "dB");
  expectWithin(measures.balanceDb, 0, 1e-6, "dB");
});

/** One dry noise d both sides, one return w of gain g to both buses beside it; E(dw) = 0: wet to dry is g^2 W / D. */
test.each([-20, -6, 0, 9])("wet to dry of a return at %f dB", (gainDb) => {
  const frames = 2 * rateHz;
  const d = noise({ seed: 3, frames });
  const w = unrelated(noise({ seed: 4, frames, rms: 0.3 }), d);
  const g = 10 ** (gainDb / 20);
  const algebra = new MixAlgebra(productsOf([d, w], rateHz));
  const facts = algebra.factsOf({
    left: [1, g],
    right: [1, g],
    dry: { left: [1, 0], right: [1, 0] },
  });
  expectWithin(
    wetToDryMeasure.find(facts).value,
    gainDb + 10 * Math.log10(energy(w) / energy(d)),
    1e-6,
    "dB",
  );
});

/** Shared noise s of power S and own noises of power N a side: correlation S / (S + N), any common gain. */
test.each([0.1, 0.5, 0.9])("a shared and two own noises, correlation %f", (rho) => {
  const frames = 3 * rateHz;
  const shared = noise({ seed: 5, frames });
  const own = unrelated(noise({ seed: 6, frames }), shared);
  const other = unrelated(unrelated(noise({ seed: 7, frames }), shared), own);
  const gain = (x: Float32Array, power: number) => Math.sqrt(power / energy(x));
  const [s, n1, n2] = [gain(shared, rho), gain(own, 1 - rho), gain(other, 1 - rho)];
  const algebra = new MixAlgebra(productsOf([shared, own, other], rateHz));
  const facts = algebra.factsOf({ left: [s, n1, 0], right: [s, 0, n2], dry: null });
  const { correlation, sideShare } = soundMeasuresOf(facts);
  expectWithin(correlation, rho, 1e-7);
  expectWithin(sideShare, (1 - rho) / 2, 1e-7);
});

/** Law: a mix is what it is whichever way it is measured. Any stems, any gains of either sign. */
test("random stems and gains measure as the sound that they make", () => {
  // Silent, or as far down as a mixer goes.
  const gain = fc.double({ min: -1.5, max: 1.5, noNaN: true }).map((g) => (Math.abs(g) < 1e-3 ? 0 : g));
  const gains = (length: number) => fc.array(gain, { minLength: length, maxLength: length });
  const cases = fc.integer({ min: 1, max: 4 }).chain((count) =>
    fc.record({
      count: fc.constant(count),
      seed: fc.integer({ min: 0, max: 1e6 }),
      seconds: fc.double({ min: 0.1, max: 5, noNaN: true }),
      left: gains(count),
      right: gains(count),
      rate: fc.constantFrom(22_050, 44_100, 48_000, 69_313),
    }),
  );
  fc.assert(
    fc.property(cases, ({ count, seed, seconds, left, right, rate }) => {
      const stems = swelling(count, seed, Math.round(seconds * rate));
      const algebra = new MixAlgebra(productsOf(stems, rate));
      const sound = metered(mixed(stems, left), mixed(stems, right), rate);
      const facts = algebra.factsOf({ left, right, dry: null });
      const measures = soundMeasuresOf(facts);
      // What single precision rounds off of so short a mix is up to some 1e-9 of it.
      expectSameMeasures(facts, sound, 5);
      const exact = inDoubles(stems, left, right);
      if (exact.left > 0 && exact.right > 0) {
        const { cross, side } = exact;
        expectWithin(measures.correlation, cross / Math.sqrt(exact.left * exact.right), 1e-11);
        expectWithin(measures.sideShare, side / (exact.left + exact.right), 1e-11);
      }
    }),
    { numRuns: 25 },
  );
});

test("equal gains are mono, to the bit; opposite ones are gone when folded", () => {
  const stems = swelling(3, 9, rateHz);
  const algebra = new MixAlgebra(productsOf(stems, rateHz));
  const gains = [0.3, -0.7, 1.1];
  const mono = soundMeasuresOf(algebra.factsOf({ left: gains, right: gains, dry: null }));
  expect(mono.correlation).toBe(1);
  expect(mono.sideShare).toBe(0);
  expect(mono.foldDownLossDb).toBe(0);
  const opposite = soundMeasuresOf(
    algebra.factsOf({ left: gains, right: gains.map((gain) => -gain), dry: null }),
  );
  expect(opposite.correlation).toBe(-1);
  expect(opposite.sideShare).toBe(1);
  expect(opposite.foldDownLossDb).toBeNull();
});

/** Stems with something in common, each with its own swell, one with silence at its start. */
function swelling(count: number, seed: number, frames: number): Float32Array[] {
  const next = randomNumbers(seed);
  const common = noise({ seed: seed + 1, frames });
  return Array.from({ length: count }, (_, k) => {
    const own = noise({ seed: seed + 2 + k, frames });
    const [share, speed, start] = [next(), 1 + 5 * next(), k === 1 ? frames * 0.3 * next() : 0];
    return own.map((x, n) => {
      const swell = 0.5 - 0.5 * Math.cos((speed * 2 * Math.PI * n) / frames);
      return n < start ? 0 : swell * (share * x + (1 - share) * common[n]);
    });
  });
}

/** Energies of the mix as written, frame by frame and never rounded to single precision. */
function inDoubles(stems: readonly Float32Array[], left: readonly number[], right: readonly number[]) {
  const sums = { left: 0, right: 0, cross: 0, side: 0 };
  for (let n = 0; n < stems[0].length; n++) {
    const l = stems.reduce((sum, stem, i) => sum + left[i] * stem[n], 0);
    const r = stems.reduce((sum, stem, i) => sum + right[i] * stem[n], 0);
    sums.left += l * l;
    sums.right += r * r;
    sums.cross += l * r;
    sums.side += (l - r) ** 2 / 2;
  }
  return sums;
}

const energy = (x: Float32Array): number => x.reduce((sum, value) => sum + value * value, 0);

/** `x` without what it has in common with `y`. */
function unrelated(x: Float32Array, y: Float32Array): Float32Array {
  const share = x.reduce((sum, value, n) => sum + value * y[n], 0) / energy(y);
  return x.map((value, n) => value - share * y[n]);
}
