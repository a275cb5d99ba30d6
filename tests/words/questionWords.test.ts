import { expect, test } from "vitest";
import type { Rig } from "../../src/rig/model/rig.js";
import { routingsOf } from "../../src/rig/routings/routingsOf.js";
import { buildSheet } from "../../src/rig/wiring/buildSheet.js";
import { questionWords } from "../../src/words/questionWords.js";
import { answerOf } from "../../src/work/answer/answer.js";
import { instrument, noAsks, pedal, rigOf } from "../rigs.js";
import { measures, reportOf } from "./reports.js";

/** The question of a rig whose wirings all measure alike. */
function questionOf(rig: Rig): readonly string[] {
  const found = routingsOf(rig).map(({ id, wiring, cautions }) => ({
    id,
    measures: wiring && measures(),
    build: wiring && buildSheet(rig, { wiring, cautions }),
  }));
  const answer = answerOf(rig, routingsOf(rig), { reference: "stereo-unit", routings: found });
  return questionWords(rig, reportOf({}, { answer }));
}

const weir = pedal("Weir", "chorus", "mono-to-stereo");
const tank = pedal("Tank", "spring", "mono");
const tremolo = pedal("Slow tremolo", "tremolo", "mono");

test("one unit: which pedals are in stereo, which is not, and that nothing is asked", () => {
  expect(questionOf(rigOf([pedal("Grit", "overdrive", "mono"), weir, tank]))).toEqual([
    "Weir (chorus) plays in stereo; Tank (reverb) comes after the split, with one input and one output. How should Tank be wired?",
    "Nothing is ruled out beforehand: width decides first, then cost, the number of boxes and loss in mono.",
  ]);
});

test("a stereo instrument, several units, where it plays in mono, and every ask in words", () => {
  const asks = {
    ...noAsks,
    stereo: 0.4,
    order: ["Tank"],
    sameUnit: ["Tank"],
    oneOfEach: true,
    bothSides: true,
    spendAtMost: 300,
    extraBoxesAtMost: 1,
    outletsAtMost: 6,
    milliampsAtMost: 500,
    boardCm2AtMost: 1200,
    monoLossDbAtMost: 1.5,
    first: ["cost", "width", "boxes", "monoLoss"],
  } as const;
  const [question, asked] = questionOf(
    rigOf([tremolo, tank], { asks, instrument: instrument({ outputs: 2 }), playsInto: "one-amp" }),
  );
  expect(question).toBe(
    "The instrument plays in stereo; Slow tremolo and Tank (reverb) come after the split, with one input and one output each. " +
      "How should Slow tremolo and Tank be wired? It plays into one amp, so nothing of it is heard in stereo.",
  );
  expect(asked).toBe(
    "Asked for: stereo (at least 40 % of the width); Tank behind what it follows; this very Tank; no second unit; " +
      "no unit on one side alone; EUR 300 to spend at most; 1 more box at most; 6 outlets of the supply at most; " +
      "500 mA at most; 1200 cm2 of the board at most; 1.5 dB lost in mono at most. Of what keeps all of it, cost decides.",
  );
});

test("where there is nothing to decide, it says so", () => {
  expect(questionOf(rigOf([tank, weir]))).toEqual([
    "Weir (chorus) plays in stereo, and no mono unit comes after that: there is one way to wire it.",
  ]);
  expect(questionOf(rigOf([tank, tremolo]))).toEqual([
    "Every pedal of this rig is in mono: there is one way to wire it, and nothing to decide.",
  ]);
});
