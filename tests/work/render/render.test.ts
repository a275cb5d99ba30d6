import { expect, test } from "vitest";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { compile } from "../../../src/work/render/compile.js";
import { render } from "../../../src/work/render/render.js";
import { pedal, rigOf } from "../../rigs.js";
import { impulse, noise } from "../../signals.js";

const rateHz = 48_000;
const echoRig = (feedback: number, delayMs = 500) =>
  rigOf([pedal("E", "delay", "mono", { feedback, delayMs, mix: 0.5 })]);

function framesOf(
  feedback: number,
  capSeconds: number,
  take = impulse(4800),
  agree?: (needed: number) => number,
): number {
  let given = 0;
  const graph = compile([routingsOf(echoRig(feedback))[0].wiring!], { rateHz });
  const frames = render(graph, {
    take,
    rateHz,
    tail: { dropDb: 60, capSeconds, silenceSeconds: 0.5 },
    sink: (_outputs, count) => {
      given += count;
    },
    ...(agree ? { agree } : {}),
  });
  expect(given).toBe(frames);
  return frames;
}

/** Closed form: echo k of a feedback delay is 20 k log10(feedback) down; the tail ends with the last above -60 dB. */
test("a tail ends when it has fallen by 60 dB, silences between echoes notwithstanding", () => {
  const feedback = 10 ** (-20 / 20);
  const frames = framesOf(feedback, 30);
  // Echoes at 0.5, 1, 1.5 s are 0, -20, -40 dB to the dry sound of 0 dB; 2 s is -60.
  expect(frames / rateHz).toBeGreaterThan(1.5);
  expect(frames / rateHz).toBeLessThan(2.2);
});

test("a tail is cut at the cap", () => {
  expect(framesOf(0.9, 3)).toBe(4800 + 3 * rateHz);
});

test("a silent take has no tail", () => {
  expect(framesOf(0.9, 10, new Float32Array(4800))).toBe(4800);
});

test("renders go on to the length that is agreed on", () => {
  const take = noise({ seed: 2, frames: 1000 });
  expect(framesOf(0, 10, take, (needed) => needed + 12_345)).toBe(framesOf(0, 10, take) + 12_345);
});
