import { expect, test } from "vitest";
import { measuresOf } from "../../../src/sound/measure/fill.js";
import { measureClip } from "../../../src/sound/measure/stereoMeter.js";
import { noise } from "../../signals.js";
import { expectWithin } from "../../within.js";
import { mix, shapedNoise } from "./testTones.js";

const rateHz = 48_000;
const measure = (left: Float32Array, right = left) => measureClip({ rateHz, channels: [left, right] });

/** Closed form: the same sound at any level differs by nothing in any band, and keeps all of its width. */
test("level alone is no difference", () => {
  const [left, right] = [1, 2].map((seed) => noise({ seed, frames: 5 * rateHz }));
  const quiet = measure(
    left.map((x) => x / 4),
    right.map((x) => x / 4),
  );
  const compared = measuresOf(quiet, null, { reference: measure(left, right), dry: measure(left, right) });
  expectWithin(compared.widthKept, 1, 1e-6);
  for (const band of [...compared.bands, ...compared.thirds]) {
    expectWithin(band.toDryDb, 0, 1e-5, "dB");
    expectWithin(band.toReferenceDb, 0, 1e-5, "dB");
  }
  expect(Object.keys(compared.reasons)).toEqual(["decay", "wetToDryDb", "comb"]);
});

/** Closed form: noise weighted by a factor 2 above 1414 Hz: its octaves lie 6.02 dB apart, whatever the loudness. */
test("a shelf shows as the difference between bands", () => {
  const size = 2 ** 18;
  const edge = (1412.5 / rateHz) * size;
  const flat = measure(shapedNoise(size, 3, () => 100));
  const raised = measure(shapedNoise(size, 3, (k) => (k < edge ? 100 : 200)));
  const { bands } = measuresOf(raised, null, { reference: null, dry: flat });
  const at = (centreHz: number) => bands.find((band) => band.centreHz === centreHz)?.toDryDb ?? Number.NaN;
  expectWithin(at(4000) - at(500), 6.0206, 0.02, "dB");
  expectWithin(at(8000) - at(2000), 0, 0.05, "dB");
  expect(bands[5].toReferenceDb).toBeNull();
});

/** Closed form: half the side amplitude against the same middle. */
test("width kept is a ratio of side shares", () => {
  const [mid, side] = [4, 5].map((seed) => noise({ seed, frames: rateHz }));
  const wide = measure(mix(mid, 1, side, 1), mix(mid, 1, side, -1));
  const narrow = measure(mix(mid, 1, side, 0.5), mix(mid, 1, side, -0.5));
  const energy = (x: Float32Array) => x.reduce((sum, value) => sum + value * value, 0);
  const share = (gain: number) => (energy(side) * gain ** 2) / (energy(mid) + energy(side) * gain ** 2);
  expectWithin(
    measuresOf(narrow, null, { reference: wide, dry: null }).widthKept,
    share(0.5) / share(1),
    1e-6,
  );
});

test("what cannot be compared says why", () => {
  const sound = measure(noise({ seed: 6, frames: rateHz }));
  const silent = measure(new Float32Array(rateHz));
  const { reasons, widthKept, bands } = measuresOf(sound, null, { reference: silent, dry: silent });
  expect(widthKept).toBeNull();
  expect(bands[3]).toMatchObject({ toDryDb: null, toReferenceDb: null });
  expect(reasons.widthKept).toMatch(/no side/);
  expect(reasons["bands.toDryDb"]).toMatch(/without loudness/);
  const alone = measuresOf(sound, null, { reference: null, dry: null });
  expect(alone).toMatchObject({ correlation: sound.correlation, widthKept: null, decay: null });
  expect(alone.reasons.widthKept).toMatch(/needs a reference/);
  expect(alone.reasons.decay).toMatch(/needs a wiring/);
});
