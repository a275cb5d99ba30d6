import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { parseRig } from "../../src/rig/file/parseRig.js";
import { routingIds } from "../../src/rig/routings/routing.js";
import { demoNames, demoRig } from "../work/crosscheck/demoRig.js";
import { checked } from "../work/crosscheck/rendered.js";

/**
 * The demo rigs, whole wirings of them, against an independent implementation of the W3C Web Audio API. No standard node
 * makes their reverbs, nor an overdrive: a response stands in the place of the one, a boost in that of the other.
 * Target: -90 dBFS RMS; here all is single precision's rounding.
 */
const rig = (name: string) => {
  const file = new URL(`../../fixtures/rigs/${name}.yaml`, import.meta.url);
  const text = readFileSync(file, "utf8")
    .replace(/model: (spring|plate|hall)/, "model: response")
    .replace(/settings: \{ decaySeconds: [\d.]+,(?: preDelayMs: [\d.]+,)? mix/, "settings: { file: one, mix")
    .replace("model: overdrive", "model: boost")
    .replace(/^(secondUnit|stereoUnit):\n.*\n/m, "");
  return parseRig(text, file.pathname);
};

test.each(demoNames)("%s: every routing by two engines", async (name) => {
  const found = await checked(rig(name), { seconds: 0.4, responseSeconds: 0.15 });
  expect(found.length).toBeGreaterThanOrEqual(routingIds.length);
  for (const { id, skipped, withinTarget, targetDbfs, rmsDbfs } of found) {
    expect({ id, skipped, withinTarget }).toEqual({ id, skipped: null, withinTarget: true });
    expect(targetDbfs, id).toBeLessThan(-100);
    expect(rmsDbfs, id).toBeLessThan(-110);
  }
});

/** The demo rigs as they are: spring, hall, plate and overdrive are handed over, everything around them is judged. */
test.each(demoNames)("%s as it stands: no routing is left out", async (name) => {
  const found = await checked(demoRig(name), { seconds: 0.4 });
  for (const { id, skipped, withinTarget, targetDbfs, rmsDbfs, pedals } of found) {
    expect({ id, skipped, withinTarget }).toEqual({ id, skipped: null, withinTarget: true });
    expect(targetDbfs, id).toBeLessThan(-100);
    expect(rmsDbfs ?? -200, id).toBeLessThan(-110);
    expect(
      pedals.some(({ by }) => by === "hand-over"),
      id,
    ).toBe(true);
  }
});

/** The same without what swings: nothing but delays, gains, filters and a response, with every latency and leak. */
test("mill-loft without its chorus: time-invariant", async () => {
  const whole = rig("mill-loft");
  const still = whole.pedals.map((pedal) =>
    pedal.model === "chorus"
      ? { ...pedal, model: "tone", settings: { bassDb: 6, bassHz: 200, trebleDb: -9, trebleHz: 2500 } }
      : pedal,
  );
  const found = await checked(
    { ...whole, pedals: still, wirings: {} },
    { seconds: 0.4, responseSeconds: 0.15 },
  );
  for (const { id, targetBy, targetDbfs, rmsDbfs } of found) {
    expect({ id, targetBy }).toEqual({ id, targetBy: "rounding" });
    expect(targetDbfs, id).toBeLessThan(-120);
    expect(rmsDbfs, id).toBeLessThan(-130);
  }
});
