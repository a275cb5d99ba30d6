import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { readTake } from "../../../src/node/audio/readTake.js";
import type { Pedal, Rig } from "../../../src/rig/model/rig.js";
import { routingNamed, routingsOf } from "../../../src/rig/routings/routingsOf.js";
import type { Wiring } from "../../../src/rig/wiring/wiring.js";
import { type HeldTake, takePart } from "../../../src/sound/audio/takeSource.js";
import { initialiseFft } from "../../../src/sound/dsp/fft.js";
import { renderPart } from "../../../src/work/compare/renderPart.js";
import { tailRule } from "../../../src/work/render/tail.js";
import { measuredReturns } from "../../../src/work/returns/measuredReturns.js";
import { pedal, rigOf } from "../../rigs.js";
import { noise } from "../../signals.js";
import { expectWithin } from "../../within.js";

await initialiseFft();
const tailSeconds = 6;

const washAndTank = (mix: number, rest: Partial<Rig> = {}) =>
  rigOf(
    [
      pedal("Wash", "chorus", "mono-to-stereo"),
      pedal("Tank", "spring", "mono", { mix, decaySeconds: 1 }),
      pedal("Echo", "delay", "stereo", { mix: 0.3 }),
    ],
    rest,
  );

/** Wet to dry as a comparison measures it: the render against its twin with the unit's effect silenced, at both buses. */
function wetToDryDb(rig: Rig, wirings: readonly Wiring[], take: HeldTake, rateHz: number) {
  const { readings } = renderPart(
    {
      wirings: wirings.map((wiring, n) => ({ id: `${n}`, wiring })),
      take,
      rateHz,
      clips: new Map(),
      tail: tailRule(rig, tailSeconds),
    },
    {
      openTrack: () => ({ write: () => {}, close: () => {} }),
      agree: (needed) => needed,
      onFrames: () => {},
    },
  );
  return readings.map(({ rig: ofRig }) => ofRig?.wetToDryDb ?? null);
}

const wiringsOf = (rig: Rig, ids: readonly string[]): readonly Wiring[] =>
  ids.flatMap((id) => {
    const routing = routingNamed(rig, id);
    return typeof routing === "string" || !routing.wiring ? [] : [routing.wiring];
  });

/** The demo's takes, and CC0 recordings of the npm package supersonic-scsynth-samples. */
const recording = (name: string): string =>
  name.includes("_")
    ? createRequire(import.meta.url).resolve(`supersonic-scsynth-samples/samples/${name}.flac`)
    : fileURLToPath(new URL(`../../../fixtures/takes/${name}.wav`, import.meta.url));

/** Fairness: what a unit gives beside is what it gives in line, within what a step of 0.1 dB leaves. */
test.each(["noise", "ferry-road", "quay-piano", "guit_em9", "ambi_piano"])(
  "returns give the in-line balance on %s",
  async (name) => {
    const { samples, rateHz } =
      name === "noise"
        ? { samples: noise({ seed: 3, frames: 48_000, rms: 0.1 }), rateHz: 24_000 }
        : await readTake(recording(name), { channel: "mean", allowTruncated: false });
    const take = takePart(samples, 0, 4 * rateHz);
    const rig = washAndTank(0.35);
    const trims = measuredReturns(rig, routingsOf(rig), { take, rateHz, clips: new Map(), tailSeconds });
    const measured = { ...rig, returnTrims: trims };
    const wirings = wiringsOf(measured, ["series-mono", "parallel", "parallel-after"]);
    const [inLine, beside, after] = wetToDryDb(rig, wirings, take, rateHz);
    expectWithin(beside, inLine!, 0.1, "dB");
    expectWithin(after, inLine!, 0.1, "dB");
    expectWithin(trims.parallel.Tank.wetToDryDb, inLine!, 0.1, "dB");
  },
);

/** Its return moves dry sound as well, so that one step by the difference is not enough. */
test.each([-3, -6, -12])("so does one that cannot go fully wet, with dry at %i dB", (dryLeakDb) => {
  const plain = washAndTank(0.2);
  const pedals = plain.pedals.map((each) =>
    each.name === "Tank" ? { ...each, canGoFullyWet: false, dryLeakDb } : each,
  );
  const rig = { ...plain, pedals };
  const rateHz = 48_000;
  // Bright, where a spring gives nothing: far from what its return is drawn for.
  const flat = noise({ seed: 5, frames: rateHz / 2, rms: 0.1 });
  const take = flat.map((x, n) => x - (flat[n - 1] ?? 0));
  const trims = measuredReturns(rig, routingsOf(rig), { take, rateHz, clips: new Map(), tailSeconds });
  const wirings = wiringsOf({ ...rig, returnTrims: trims }, ["series-mono", "parallel", "parallel-after"]);
  const [inLine, beside, after] = wetToDryDb(rig, wirings, take, rateHz);
  expectWithin(beside, inLine!, 0.15, "dB");
  expectWithin(after, inLine!, 0.15, "dB");
});

/** At mix 1 there is no dry sound in line: wet as loud as dry, and no return at +12 dB. */
test("a unit at mix 1 is set to 0 dB wet to dry", () => {
  const rig = washAndTank(1);
  const take = noise({ seed: 4, frames: 24_000, rms: 0.1 });
  const rateHz = 12_000;
  const trims = measuredReturns(rig, routingsOf(rig), { take, rateHz, clips: new Map(), tailSeconds });
  const wirings = wiringsOf({ ...rig, returnTrims: trims }, ["parallel"]);
  const [beside] = wetToDryDb(rig, wirings, take, rateHz);
  expectWithin(beside, 0, 0.1, "dB");
  expect(trims.parallel.Tank.by).toBe("no-dry");
  const routing = routingNamed({ ...rig, returnTrims: trims }, "parallel");
  expect(typeof routing === "string" ? "" : routing.cautions.join(" ")).toContain(
    "leaves no dry sound to go by",
  );
});

test("a return whose level the rig gives is left alone", () => {
  const rig = washAndTank(0.35, { mixer: { dryDb: 0, returnDb: -7, returnPan: 0 } });
  const take = noise({ seed: 4, frames: 1000, rms: 0.1 });
  expect(
    measuredReturns(rig, routingsOf(rig), { take, rateHz: 8000, clips: new Map(), tailSeconds }),
  ).toEqual({});
});

/** Two units, each by itself: the level of one does not depend on the other's. */
test("each of two units has its own in-line balance", () => {
  const units = [
    pedal("Tank", "spring", "mono", { mix: 0.35, decaySeconds: 1 }),
    pedal("Carter", "delay", "mono", { mix: 0.2 }),
  ];
  const wash = pedal("Wash", "chorus", "mono-to-stereo");
  const take = noise({ seed: 9, frames: 24_000, rms: 0.1 });
  const rateHz = 12_000;
  const sound = { take, rateHz, clips: new Map(), tailSeconds };
  const both = rigOf([wash, ...units]);
  const together = measuredReturns(both, routingsOf(both), sound).parallel;
  for (const unit of units) {
    const alone = rigOf([wash, unit]);
    const { trimDb, wetToDryDb: wet } = measuredReturns(alone, routingsOf(alone), sound).parallel[unit.name];
    expectWithin(together[unit.name].trimDb, trimDb, 0.11, "dB");
    expectWithin(together[unit.name].wetToDryDb, wet, 0.1, "dB");
  }
});

/** In line, what a unit at mix 1 gives is all there is; another unit's wet sound stands to that. */
test("a unit at mix 1 does not take the in-line balance from another", () => {
  const wash = pedal("Wash", "chorus", "mono-to-stereo");
  const tank = pedal("Tank", "spring", "mono", { mix: 1, decaySeconds: 1 });
  const carter = pedal("Carter", "delay", "mono", { mix: 0.2 });
  const take = noise({ seed: 9, frames: 24_000, rms: 0.1 });
  const sound = { take, rateHz: 12_000, clips: new Map(), tailSeconds };
  const trimsOf = (...units: readonly Pedal[]) => {
    const rig = rigOf([wash, ...units]);
    return measuredReturns(rig, routingsOf(rig), sound).parallel;
  };
  const alone = trimsOf(carter).Carter;
  for (const units of [
    [tank, carter],
    [carter, tank],
  ]) {
    const together = trimsOf(...units);
    expect(together.Carter.by).toBe("in-line");
    // The spring colours the noise that the delay hears behind it, and runs on behind its repeats.
    expectWithin(together.Carter.wetToDryDb, alone.wetToDryDb, 1, "dB");
    expect(together.Tank.by).toBe("no-dry");
    expectWithin(together.Tank.wetToDryDb, 0, 0.1, "dB");
  }
});

test("a unit that shapes its whole input has no wet sound that its return could be measured by", () => {
  const rig = rigOf([pedal("Wash", "chorus", "mono-to-stereo"), pedal("Swell", "tremolo", "mono")]);
  const take = noise({ seed: 9, frames: 1000, rms: 0.1 });
  const trims = measuredReturns(rig, routingsOf(rig), {
    take,
    rateHz: 8000,
    clips: new Map(),
    tailSeconds,
  });
  const routing = routingNamed({ ...rig, returnTrims: trims }, "parallel");
  const told = typeof routing === "string" ? "" : routing.cautions.join(" ");
  expect(told).toMatch(/The return of Swell .* about as loud as it is in line/);
  expect(told).not.toMatch(/wet is set|on this take/);
});
