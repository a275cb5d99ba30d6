import { expect, test } from "vitest";
import { wiringOf } from "../../../src/rig/routings/routingsOf.js";
import type { Wiring } from "../../../src/rig/wiring/wiring.js";
import { initialiseFft } from "../../../src/sound/dsp/fft.js";
import { Bench, predictorFor } from "../../../src/work/proof/bench.js";
import { asDrawn, faultsOf } from "../../../src/work/proof/faults.js";
import { misfitOf, scoreOf } from "../../../src/work/proof/likelihood.js";
import { recordingList } from "../../../src/work/proof/recordingList.js";
import { instrument, pedal, rigOf } from "../../rigs.js";
import { noise } from "../../signals.js";
import { slipsOf } from "./mishaps.js";
import { shortTone as tone } from "./shortTone.js";
import { recordBoard } from "./simulatedBoard.js";

await initialiseFft();
const rig = rigOf([pedal("Tank", "delay", "mono", { delayMs: 90 })], {
  instrument: instrument({ outputs: 2 }),
});
const wiring = wiringOf(rig, "parallel-after") as Wiring;
const list = recordingList(wiring);

/** One of the recordings, the tone on the left alone, then holds hiss and nothing else. */
test("a dead input of an instrument's two is told by the recording in which nothing comes", () => {
  const where = "Instrument, out left > Left splitter, in";
  const dead = slipsOf(wiring, 1).find((slip) => slip.kind === "cable-missing" && slip.where.includes(where));
  if (!dead) throw new Error(where);
  const recordings = list.map((asked, n) => ({
    asked,
    clip: recordBoard(dead, { tone, off: asked.off, feed: asked.feed, noiseDbfs: -60, seed: n + 1 }),
    file: `${n + 1}.wav`,
  }));
  const bench = new Bench(recordings, tone, predictorFor(tone, new Map()));
  const missing = faultsOf(wiring).find((fault) => fault.kind === "cable-missing" && fault.where === where);
  if (!missing) throw new Error(where);
  const misfit = (board: ReturnType<typeof asDrawn>) => {
    const evidence = bench.judging.map((recording) => bench.evidence({ id: "", board }, recording));
    return misfitOf(evidence, scoreOf(evidence).gainDb);
  };
  expect(misfit(missing.board(0))).toBeLessThan(0.05);
  expect(misfit(asDrawn(wiring))).toBeGreaterThan(1);
});

test("recordings of which none holds the tone are told as such, whatever their level", () => {
  const hiss = list.map((asked, n) => ({
    asked,
    clip: {
      rateHz: tone.rateHz,
      channels: [0, 1].map((side) => noise({ seed: 2 * n + side, frames: 60_000, rms: 0.001 })),
    },
    file: `${n + 1}.wav`,
  }));
  expect(() => new Bench(hiss, tone, predictorFor(tone, new Map()))).toThrow(
    /no recording holds this test tone: nothing gets through the board/,
  );
});
