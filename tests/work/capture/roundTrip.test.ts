import { describe, expect, test } from "vitest";
import { parseRig } from "../../../src/rig/file/parseRig.js";
import type { Pedal, Rig } from "../../../src/rig/model/rig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { mixedBlend } from "../../../src/rig/wiring/blend.js";
import { dbToGain, msToFrames } from "../../../src/sound/dsp/units.js";
import { measureClip } from "../../../src/sound/measure/stereoMeter.js";
import { makeTone } from "../../../src/work/capture/makeTone.js";
import { type CaptureWords, responseOf } from "../../../src/work/capture/responseOf.js";
import { responseRigLines } from "../../../src/work/capture/responseRigLines.js";
import { firstOf } from "../../longForm.js";
import { wetOf } from "../../rig/pedals/runPedal.js";
import { pedal, rigOf } from "../../rigs.js";
import { impulse } from "../../signals.js";
import { expectWithin } from "../../within.js";
import { renderWirings } from "../render/renders.js";
import { guitar } from "./guitars.js";
import { playThrough } from "./simulatedLoop.js";

/**
 * A unit of the project's own, recorded on a simulated bench (a plain cable beside it, an interface 6.35 ms late, a
 * recorder 38 ppm fast, noise at -90 dBFS), and the rig lines of that capture in the unit's place: every routing is as
 * loud within 0.3 LU and as wide within 0.01. But for the stereo unit: a mono response is the same on both sides.
 */
const rateHz = 44_100;
const tone = { lengthSeconds: 2, gapSeconds: 2, leadInSeconds: 0.4, rateHz };
const { clip } = makeTone(tone);

/** What comes out of a unit at some setting of its mix, for a click. */
function clickThrough(unit: Pedal, mix: number): Float32Array {
  const frames = Math.round(1.9 * rateHz);
  const [wet] = wetOf({ model: unit.model, settings: unit.settings, input: [impulse(frames)], rateHz });
  const blend = mixedBlend({ ...unit, settings: { ...unit.settings, mix } }, 1);
  const leak = mix === 1 && !unit.canGoFullyWet ? dbToGain(unit.dryLeakDb) : 0;
  const trim = dbToGain(unit.levelDb) * (unit.invertsPolarity ? -1 : 1);
  return wet.map((x, n) => trim * (blend.wet[0] * x + (n === 0 ? blend.dry[0] || leak : 0)));
}

function recorded(unit: Pedal, mix: number) {
  const loop = { driftPpm: 38, noiseDbfs: -90, lateFrames: 9600 };
  const cable = msToFrames(6.35, rateHz);
  const late = cable + msToFrames(unit.latencyMs, rateHz);
  const response = clickThrough(unit, mix);
  const [through] = playThrough(
    clip.channels[0],
    { ...loop, response, latencyFrames: late, seed: 2 },
    rateHz,
  ).channels;
  const [beside] = playThrough(clip.channels[0], { ...loop, latencyFrames: cable, seed: 3 }, rateHz).channels;
  const frames = Math.min(through.length, beside.length);
  return { rateHz, channels: [through.subarray(0, frames), beside.subarray(0, frames)] };
}

function captured(unit: Pedal, mix: number, words: CaptureWords) {
  const found = responseOf(recorded(unit, mix), tone, { referenceChannel: "right", ...words });
  return { found, lines: responseRigLines(found, "unit.wav") };
}

/** The pedal that the lines make, at the mix that it is played with where they leave it open. */
function pedalOf(lines: readonly string[], mix: number): Pedal {
  const written = lines.map((line) => {
    const open = line.startsWith("settings") && !line.includes("mix:");
    return `    ${open ? line.replace(" }", `, mix: ${mix} }`) : line}\n`;
  });
  return parseRig(`name: A\npedals:\n  - name: Unit\n${written.join("")}`, "rig.yaml").pedals[0];
}

const swing = pedal("Swing", "tremolo", "mono-to-stereo", { spreadDegrees: 180 }, { latencyMs: 1.2 });
const take = (await guitar("guit_em9")).channels[0].subarray(0, 2 * rateHz);

function figuresOf(rig: Rig, clips: ReadonlyMap<string, readonly Float32Array[]>) {
  const possible = routingsOf(rig).flatMap(({ id, wiring }) =>
    wiring && id !== "stereo-unit" ? [{ id, wiring }] : [],
  );
  const wirings = possible.map(({ wiring }) => wiring);
  return renderWirings(wirings, take, rateHz, { clips, tailSeconds: 2 }).map((channels, n) => {
    const { integratedLufs, sideShare } = measureClip({ rateHz, channels });
    return { id: possible[n].id, integratedLufs, sideShare };
  });
}

const spring = (rest: Partial<Pedal> = {}) =>
  pedal("Unit", "spring", "mono", { decaySeconds: 1, mix: 0.35 }, rest);
const plate = (rest: Partial<Pedal> = {}) =>
  pedal("Unit", "plate", "mono", { decaySeconds: 1, excursionMs: 0, mix: 0.3 }, rest);
const echo = (rest: Partial<Pedal> = {}) =>
  pedal("Unit", "delay", "mono", { delayMs: 210, feedback: 0.3, mix: 0.4 }, rest);

const cases: readonly [string, Pedal, number, CaptureWords, readonly string[]][] = [
  ["analogue, no latency, nothing told", spring(), 1, {}, []],
  [
    "leaking at its wettest and late",
    spring({ latencyMs: 2.9, canGoFullyWet: false, dryLeakDb: -20 }),
    1,
    {},
    ["latencyMs: 2.9000", "canGoFullyWet: false", "dryLeakDb: -20.0"],
  ],
  [
    "as it is played, softer, its mix told",
    echo({ latencyMs: 0.7, levelDb: -3 }),
    0.4,
    { mix: 0.4 },
    ["mix: 0.4", "latencyMs: 0.7000", "levelDb: -3.0"],
  ],
  [
    "leaking as much as a mix, told to be at its wettest, turned over",
    echo({ latencyMs: 1.6, canGoFullyWet: false, dryLeakDb: -6, invertsPolarity: true }),
    1,
    { mix: 1 },
    ["latencyMs: 1.6000", "invertsPolarity: true", "canGoFullyWet: false", "dryLeakDb: -6.0"],
  ],
  [
    "as it is played, dry sound at unity, its mix told",
    spring({ dryPath: "unity", latencyMs: 1 }),
    0.35,
    { mix: 0.35 },
    ["mix: 0.35", "latencyMs: 1.0000", "dryPath: unity"],
  ],
  ["late, its latency told", plate({ latencyMs: 5 }), 1, { latencyMs: 5, mix: 1 }, ["latencyMs: 5.0000"]],
];

describe("rig lines in place of the unit", () => {
  test.each(firstOf(cases, 2))("%s", (_name, unit, mix, words, wanted) => {
    const { found, lines } = captured(unit, mix, words);
    for (const text of wanted) expect(lines.join("\n")).toContain(text);
    if (unit.canGoFullyWet) expect(lines.join("\n")).not.toContain("dryLeakDb");
    if (wanted.length === 0) expect(lines.join("\n")).not.toContain("latencyMs");
    const rig = rigOf([swing, unit]);
    const inPlace = pedalOf(lines, Number(unit.settings.mix));
    const ours = figuresOf(rig, new Map());
    const theirs = figuresOf(rigOf([swing, inPlace]), new Map([["unit.wav", found.response.channels]]));
    expect(ours.length).toBeGreaterThanOrEqual(7);
    for (const [n, { id, integratedLufs, sideShare }] of ours.entries()) {
      expect(theirs[n].id).toBe(id);
      expectWithin(theirs[n].integratedLufs, integratedLufs!, 0.3, `LU, ${id}`);
      expectWithin(theirs[n].sideShare, sideShare!, 0.01, `side share, ${id}`);
    }
  });
});

describe("what is not known is told", () => {
  test("a mix that nobody told: the file holds all, and what that means", () => {
    const { found, lines } = captured(echo(), 0.4, {});
    expect(found.unit.holds).toBe("all");
    expect(lines.join("\n")).toContain("mix: 1 }");
    expect(found.statements.join("\n")).toMatch(/mix that was set is not known.*heard twice/);
  });
  test("no direct sound: the latency is not known, nor the mix", () => {
    const { found } = captured(spring(), 1, {});
    expect(found.unit).toMatchObject({ latencyFrames: null, mix: null, dryLeakDb: null, holds: "effect" });
    expect(found.statements.join("\n")).toMatch(/mix that was set is not known.*no dry sound stands out/);
    expect(found.statements.join("\n")).toMatch(/No direct sound tells the unit's own latency/);
    expect(found.startFrames).toBeCloseTo(0, 6);
  });
  test("a latency later than the first sound is refused, one beside the direct sound is told", () => {
    expect(() =>
      captured(echo({ settings: { ...echo().settings, delayMs: 20 } }), 1, { latencyMs: 40 }),
    ).toThrow(/first sound comes at .* ms, ahead of the latency of 40.00 ms/);
    const leaking = spring({ latencyMs: 2, canGoFullyWet: false, dryLeakDb: -20 });
    const { found, lines } = captured(leaking, 1, { latencyMs: 3 });
    expect(found.statements.join("\n")).toMatch(
      /A latency of 3.00 ms was given; the direct sound comes at 2.00 ms/,
    );
    expect(lines.join("\n")).toContain("latencyMs: 2.0");
  });
});

test.each([
  ["a reverb that is late", spring()],
  ["a reverb with a leak", spring({ canGoFullyWet: false, dryLeakDb: -20 })],
  ["a late box that passes all", pedal("Unit", "boost", "mono", { gainDb: 0 }, { latencyMs: 1.2 })],
])("sides of a reference that are swapped are recognised: %s", (_name, unit) => {
  expect(() => responseOf(recorded(unit, 1), tone, { referenceChannel: "left" })).toThrow(
    /the sides look swapped: the left side, named as the plain cable.*--reference-channel right/,
  );
});
