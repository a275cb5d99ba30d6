import { expect, test } from "vitest";
import { openOffline } from "../../../src/node/crosscheck/openOffline.js";
import type { Pedal, Rig, WhenOff } from "../../../src/rig/model/rig.js";
import { routingIds } from "../../../src/rig/routings/routing.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { crosscheckText } from "../../../src/words/crosscheckText.js";
import { crosscheck } from "../../../src/work/crosscheck/crosscheck.js";
import { type CrosscheckReport, missedFault } from "../../../src/work/crosscheck/crosscheckReport.js";
import { judgedEffects } from "../../../src/work/crosscheck/judgedEffects.js";
import { withAllOff } from "../../../src/work/switches/states.js";
import { instrument, pedal, rigOf } from "../../rigs.js";
import { takeOf } from "./rendered.js";

const rateHz = 48_000;
const openContext = await openOffline();
const take = { samples: takeOf(0.3, rateHz), rateHz };
const check = (rig: Rig, routings = routingsOf(rig), open = openContext) =>
  crosscheck({ rig, routings, take, clips: new Map(), openContext: open, renderer: "library" });

/** Panner, then a mono echo with converters: every routing, every box. */
const rig = (unit: Partial<Pedal> = {}, rest: Partial<Rig> = {}): Rig =>
  rigOf(
    [
      pedal("Swing", "tremolo", "mono-to-stereo", { spreadDegrees: 180 }, { latencyMs: 0.51, levelDb: -2 }),
      pedal("Echo", "delay", "mono", { mix: 0.4, delayMs: 20, feedback: 0.3 }, unit),
    ],
    rest,
  );

test.each<[string, Rig]>([
  ["all routings into a stereo desk", rig()],
  ["into a mono desk", rig({}, { playsInto: "mono-desk" })],
  [
    "a unit that leaks its dry sound, late, and turns polarity over",
    rig({ canGoFullyWet: false, latencyMs: 1.6, invertsPolarity: true }),
  ],
  ["a return off its centre", rig({}, { mixer: { dryDb: -3, returnDb: -4.5, returnPan: 0.3 } })],
])("%s", async (_what, which) => {
  const found = await check(which);
  expect(found.filter(({ skipped }) => skipped === null).length).toBeGreaterThanOrEqual(3);
  for (const { id, rmsDbfs, skipped } of found) if (skipped === null) expect(rmsDbfs, id).toBeLessThan(-140);
});

/** A keyboard whose sides differ, each from its own output, into a mono echo. */
test("an instrument with two outputs, by all its routings", async () => {
  const keys = rigOf([pedal("Echo", "delay", "mono", { mix: 0.4, delayMs: 20, feedback: 0.3 })], {
    instrument: instrument({ outputs: 2 }),
  });
  const left = takeOf(0.3, rateHz);
  const samples = { length: left.length, left, right: Float32Array.from(left).reverse() };
  const routings = routingsOf(keys);
  const found = await crosscheck({
    rig: keys,
    routings,
    take: { samples, rateHz },
    clips: new Map(),
    openContext,
    renderer: "library",
  });
  const compared = found.filter(({ skipped }) => skipped === null);
  // The sides part at the source: nothing stands ahead of that.
  const ahead: readonly string[] = ["unit-first", "parallel"];
  expect(compared.map(({ id }) => id)).toEqual(routingIds.filter((id) => !ahead.includes(id)));
  for (const { id, rmsDbfs } of compared) expect(rmsDbfs ?? -200, id).toBeLessThan(-140);
});

/** Lagrange interpolators of every order that a latency may have, 1 to 31, and whole frames. */
test.each([0.0052, 0.0417, 0.09, 0.31, 1, 1.6, 5.003])("a latency of %f ms", async (latencyMs) => {
  const [found] = await check(rigOf([pedal("Late", "boost", "mono", {}, { latencyMs })]));
  expect(found).toMatchObject({ targetBy: "rounding", withinTarget: true });
  expect(found.rmsDbfs ?? -200).toBeLessThan(-140);
});

test.each<WhenOff>(["true-bypass", "buffered", "muted"])("every pedal off, %s", async (whenOff) => {
  const whole = rig({ whenOff, latencyMs: 1.3 });
  const routings = routingsOf(whole).map((routing) => ({
    ...routing,
    wiring: routing.wiring && withAllOff(routing.wiring),
  }));
  for (const { id, rmsDbfs } of await check(whole, routings)) expect(rmsDbfs ?? -200, id).toBeLessThan(-140);
});

test("each pedal is judged by nodes, by its response or by hand-over, and all around it is judged", async () => {
  const rig = rigOf([
    pedal("Swing", "tremolo", "mono-to-stereo", { spreadDegrees: 180 }),
    pedal("Anvil", "compressor", "mono"),
    pedal("Echo", "delay", "mono", { mix: 0.4, delayMs: 20 }),
    pedal("Slap", "delay", "mono", { mix: 0.4, delayMs: 2, feedback: 0.6 }, { latencyMs: 1.3 }),
    pedal("Sheet", "plate", "mono", { mix: 0.4 }, { latencyMs: 1.3 }),
  ]);
  const found = await check(rig);
  for (const { id, skipped, rmsDbfs, withinTarget, pedals } of found) {
    expect({ id, skipped, withinTarget }).toEqual({ id, skipped: null, withinTarget: true });
    expect(rmsDbfs ?? -200, id).toBeLessThan(-140);
    const ways = pedals.map(({ name, by, why }) => [name.replace("Stereo ", ""), by, why]);
    expect(ways, id).toHaveLength(5);
    expect(ways, id).toEqual(
      expect.arrayContaining([
        ["Swing", "nodes", null],
        ["Anvil", "hand-over", expect.stringContaining("the standard's")],
        ["Echo", "nodes", null],
        ["Slap", "response", expect.stringContaining("its loop is 96 frames long")],
        ["Sheet", "hand-over", expect.stringContaining("a network of feedback loops")],
      ]),
    );
  }
});

/** A fault ahead of what is handed over must not hide behind it: the engine's own sound there would hear it too. */
test("a second engine that parts ahead of a box that is handed over is told", async () => {
  const turned: typeof openContext = (channels, frames, hz) => {
    const context = openContext(channels, frames, hz);
    const makeGain = context.createGain.bind(context);
    context.createGain = () => {
      const node = makeGain();
      const connect = node.connect.bind(node) as (...to: unknown[]) => unknown;
      const louder = (...to: unknown[]) => {
        node.gain.value *= 1.01;
        return connect(...to);
      };
      return Object.assign(node, { connect: louder });
    };
    return context;
  };
  const rig = rigOf([
    pedal("Lift", "boost", "mono-to-stereo", { gainDb: -2 }),
    pedal("Sheet", "plate", "mono", { mix: 0.4 }),
  ]);
  const routings = routingsOf(rig).filter(({ id }) => id === "dual-mono");
  const [{ withinTarget }] = await check(rig, routings, turned);
  expect(withinTarget).toBe(false);
});

test.each<[string, Record<string, number>, string | null]>([
  ["delay", { delayMs: 2.6, feedback: 0.3 }, "its loop is 125 frames long at 48000 Hz"],
  ["delay", { delayMs: 2.6, feedback: 0 }, null],
  ["delay", { delayMs: 2.7, feedback: 0.3 }, null],
  ["phaser", { feedback: 0.2 }, "its loop is one frame long"],
  ["phaser", { stages: 5 }, "an odd stage"],
  ["phaser", { lfoHz: 5 }, "swept this fast"],
  ["phaser", { lfoHz: 0.02, centreHz: 4000, sweepOctaves: 6 }, "half the sample rate"],
  // Its effect is not heard, so it is not in the way.
  ["spring", { mix: 0 }, null],
  ["spring", { mix: 0.1 }, "a sample rate of its own"],
])("%s at %j", (model, settings, reason) => {
  const wiring = routingsOf(rigOf([pedal("Box", model, "mono", settings)]))[0].wiring!;
  const why = judgedEffects(wiring, rateHz).flatMap((each) => each.why ?? []);
  if (reason === null) expect(why).toEqual([]);
  else expect(why).toEqual([expect.stringContaining(reason)]);
});

/** A second engine that is 1 % louder: 40 dB under noise of -17 dBFS. */
test("engines that part are told, and the work has failed", async () => {
  const louder: typeof openContext = (channels, frames, hz) => {
    const context = openContext(channels, frames, hz);
    const rendering = context.startRendering.bind(context);
    context.startRendering = async () => {
      const sound = await rendering();
      for (let c = 0; c < channels; c++)
        sound.getChannelData(c).set(sound.getChannelData(c).map((x) => 1.01 * x));
      return sound;
    };
    return context;
  };
  const lift = rigOf([pedal("Lift", "boost", "mono", { gainDb: 0 })]);
  const routings = await check(lift, routingsOf(lift), louder);
  expect(routings[0]).toMatchObject({ withinTarget: false });
  expect(Math.abs(routings[0].rmsDbfs! - -57)).toBeLessThan(0.5);
  const report = reportOf(routings);
  expect(missedFault(report)).toMatchObject({ exitStatus: 1 });
  expect(missedFault(report)!.message).toMatch(
    /^as-given differs by -5\d\.\d dBFS RMS from web-audio-api; it may by -13\d\.\d dBFS/,
  );
  expect(crosscheckText(report, 100)).toContain("rounding, MISSED");
  expect(missedFault(reportOf(await check(lift)))).toBe(null);
});

const allWithin = new RegExp(`${routingIds.length} routings compared, all within what they may differ\\.$`);

test("told to a person: a row a routing, and one paragraph for each reason", async () => {
  const spring = rigOf([pedal("Swing", "tremolo", "mono-to-stereo"), pedal("Tank", "spring", "mono")]);
  const text = crosscheckText(reportOf(await check(spring)), 80);
  expect(text.replaceAll(/\s+/g, " ")).toContain("in stereo-unit (spring: its chain of all-passes");
  expect(text).toMatch(allWithin);
  const plain = crosscheckText(reportOf(await check(rig())), 80);
  expect(plain).toMatch(/^series-mono +-1\d\d\.\d +-1\d\d\.\d +-1\d\d\.\d {2}rounding$/m);
  expect(plain).toMatch(allWithin);
  for (const line of `${text}\n${plain}`.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
});

function reportOf(routings: CrosscheckReport["routings"]): CrosscheckReport {
  return {
    schemaVersion: 2,
    rig: { name: "Test rig", playsInto: "stereo-desk" },
    take: { file: "take.wav", sha256: "", rateHz, frames: 48_000, playedFrames: 14_400, notices: [] },
    against: "web-audio-api",
    routings,
  };
}
