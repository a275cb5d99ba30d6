import { expect, test } from "vitest";
import { compareUnwritten } from "../../src/node/compare/compareUnwritten.js";
import { remarksOf } from "../../src/words/remarks.js";
import { pedal, rigOf } from "../rigs.js";
import { noise } from "../signals.js";
import { expectWithin } from "../within.js";

const rateHz = 16_000;
const samples = noise({ seed: 3, frames: 2 * rateHz, rms: 0.1 });
const facts = {
  file: "take.wav",
  sha256: "0",
  rateHz,
  channels: 1,
  frames: 2 * rateHz,
  notices: [],
  silent: false,
};

const compared = (unit: ReturnType<typeof pedal>) =>
  compareUnwritten({
    rig: rigOf([pedal("Split", "tremolo", "mono-to-stereo", { depth: 0 }), unit]),
    rigFile: null,
    take: { ...facts, samples },
    threads: 0,
    routings: ["dual-mono", "unit-first"],
    reference: null,
    tailSeconds: 0,
    bits: 24,
    match: true,
  });

/**
 * Closed form: gains (1 + sin) / 2 and (1 + sin(t + p)) / 2 on one sound. In step there is no side; half a round apart
 * the side is sin / sqrt 2 and the middle 1 / sqrt 2: a third of the energy.
 */
test("two units that swing by themselves are measured over how they may stand to each other", async () => {
  const report = await compared(pedal("Wobble", "tremolo", "mono", { depth: 1, lfoHz: 4, wave: "sine" }));
  const [first, dual] = report.routings;
  expect([first.id, dual.id]).toEqual(["unit-first", "dual-mono"]);
  expect(first.overPhases).toBeUndefined();
  expectWithin(dual.overPhases!.sideShare!.least, 0, 1e-6);
  expectWithin(dual.overPhases!.sideShare!.most, 1 / 3, 0.01);
  expect(remarksOf(report).get("dual-mono")!.join()).toMatch(/run free of each other: .* side 0 to 3[34] %/);
  expect(dual.build!.cautions.join()).toContain("The two Wobble swing by LFOs of their own");
});

test("two units without an LFO have no range", async () => {
  const report = await compared(pedal("Tank", "delay", "mono", { delayMs: 30 }));
  for (const { overPhases } of report.routings) expect(overPhases).toBeUndefined();
});
