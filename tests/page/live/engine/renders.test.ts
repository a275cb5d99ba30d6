import { beforeAll, expect, test } from "vitest";
import { withMixer, withSetting } from "../../../../src/page/live/changedRig.js";
import type { EngineJob } from "../../../../src/page/live/engine/engineJobs.js";
import { readFigures } from "../../../../src/page/live/engine/measuringJob.js";
import type { RenderEngine } from "../../../../src/page/live/engine/renderState.js";
import { type RenderedFigures, Renders } from "../../../../src/page/live/engine/renders.js";
import { responseNeeds } from "../../../../src/page/live/engine/responsesJob.js";
import { renderSound } from "../../../../src/page/live/engine/soundJob.js";
import type { Rig } from "../../../../src/rig/model/rig.js";
import { chooseRoutings } from "../../../../src/rig/routings/chooseRoutings.js";
import { routingsOf } from "../../../../src/rig/routings/routingsOf.js";
import { initialiseFft } from "../../../../src/sound/dsp/fft.js";
import { pedal, rigOf } from "../../../rigs.js";
import { noise } from "../../../signals.js";

const rig = rigOf(
  [
    pedal("Weir", "tremolo", "mono-to-stereo"),
    pedal("Drift", "delay", "mono", { delayMs: 31, feedback: 0.3, mix: 0.4 }),
  ],
  { mixer: { dryDb: 0, returnDb: -6, returnPan: 0 } },
);
const rateHz = 24_000;
const noClips = new Map<string, readonly Float32Array[]>();
const take = { samples: noise({ seed: 4, frames: 12_000, rms: 0.1 }), rateHz };
const ids = routingsOf(rig).map(({ id }) => id);
const plan = { tailSeconds: 5, matched: true };
const choiceOf = (of: Rig) => chooseRoutings(of, null, "stereo-unit");

beforeAll(() => initialiseFft());

/** An engine that works here and now, and remembers what it was asked for. */
function watchedEngine() {
  const asked: [kind: EngineJob["kind"], ids: string[]][] = [];
  const note = ({ kind, wirings }: Exclude<EngineJob, { kind: "states" | "returns" | "capture" }>) =>
    asked.push([kind, wirings.map(({ id }) => id)]);
  const engine: RenderEngine = {
    count: 2,
    sound: async (job, { signal, onFrames = () => {} }) => {
      signal.throwIfAborted();
      note(job);
      return renderSound(job, onFrames);
    },
    responses: async (job) => {
      note(job);
      return responseNeeds(job);
    },
    figures: async (job, { onFrames = () => {} }) => {
      note(job);
      return readFigures(job, onFrames);
    },
  };
  return {
    engine,
    /** Ids asked for since last asked, by kind, in alphabetical order. */
    since: (kind: EngineJob["kind"]) => {
      const found = asked.filter(([which]) => which === kind).flatMap(([, names]) => names);
      return [...new Set(found)].sort();
    },
    forget: () => asked.splice(0),
  };
}

function update(renders: Renders, to: Rig, signal = new AbortController().signal): Promise<RenderedFigures> {
  const state = { rig: to, choice: choiceOf(to), take, clips: noClips, levels: new Map() };
  const onSound = ({ tracks }: { tracks: readonly { channels: readonly Float32Array[] }[] }) =>
    tracks.map(({ channels }) => channels);
  return renders.update(state, { signal, onProgress: () => {}, onSound });
}

const figuresOf = ({ readings, frames, levels }: RenderedFigures) => ({ readings, frames, levels });
const afresh = async (to: Rig) => figuresOf(await update(new Renders(watchedEngine().engine, plan), to));
const all = [...ids, "dry"].sort();

test("a mixer that moves renders and measures its own routings again, and nothing else", async () => {
  const { engine, since, forget } = watchedEngine();
  const renders = new Renders(engine, plan);
  await update(renders, rig);
  expect([since("sound"), since("figures")]).toEqual([all, all]);
  forget();
  const moved = withMixer(rig, { returnDb: -7, returnPan: 0.2 });
  const figures = await update(renders, moved);
  expect(since("sound")).toEqual(["parallel", "parallel-after"]);
  expect(since("responses")).toEqual(["parallel", "parallel-after"]);
  expect(figuresOf(figures)).toEqual(await afresh(moved));
});

test("one wiring goes ahead, is not rendered again, and all figures are as without that", async () => {
  const { engine, since, forget } = watchedEngine();
  const renders = new Renders(engine, plan);
  const { signal } = new AbortController();
  const before = await update(renders, rig);
  forget();
  const turned = withSetting(rig, "Drift", "feedback", 0.6);
  const { routings } = choiceOf(turned);
  const named = { id: "dual-mono", wiring: routings.find(({ id }) => id === "dual-mono")!.wiring! };
  const state = { rig: turned, choice: choiceOf(turned), take, clips: noClips, levels: new Map() };
  const track = await renders.one(state, named, before.frames, signal);
  expect(since("sound")).toEqual(["dual-mono"]);
  expect(track?.channels[0].length).toBeGreaterThanOrEqual(before.frames);
  expect(await renders.one(state, named, before.frames, signal)).toBe(null);
  forget();
  const figures = await update(renders, turned);
  expect(since("sound")).not.toContain("dual-mono");
  expect(since("sound")).toContain("parallel");
  expect(figuresOf(figures)).toEqual(await afresh(turned));
  expect(await renders.one({ ...state, take: { ...take } }, named, 0, signal)).toBe(null);
});

test("what did not change is not done again", async () => {
  const { engine, since, forget } = watchedEngine();
  const renders = new Renders(engine, plan);
  const first = await update(renders, rig);
  forget();
  const again = await update(renders, { ...rig, name: "Another name" });
  expect(["sound", "responses", "figures"].map((kind) => since(kind as EngineJob["kind"]))).toEqual([
    [],
    [],
    [],
  ]);
  expect(figuresOf(again)).toEqual(figuresOf(first));
});

/** A longer tail is everyone's: the dry take is rendered on to it, and all are measured over the new length. */
test.each([
  ["longer", 0.9],
  ["shorter", 0],
])("a tail that gets %s is the same for all, as if rendered afresh", async (_name, feedback) => {
  const { engine } = watchedEngine();
  const renders = new Renders(engine, plan);
  const before = await update(renders, rig);
  const turned = withSetting(rig, "Drift", "feedback", feedback);
  const after = await update(renders, turned);
  expect(after.frames).not.toBe(before.frames);
  expect(figuresOf(after)).toEqual(await afresh(turned));
  expect(figuresOf(await update(renders, rig))).toEqual(figuresOf(before));
});

test("a different take is rendered from the beginning", async () => {
  const { engine, since, forget } = watchedEngine();
  const renders = new Renders(engine, plan);
  await update(renders, rig);
  forget();
  const other = { samples: noise({ seed: 5, frames: 9000, rms: 0.1 }), rateHz };
  const state = { rig, choice: choiceOf(rig), take: other, clips: noClips, levels: new Map() };
  await renders.update(state, {
    signal: new AbortController().signal,
    onProgress: () => {},
    onSound: ({ tracks }) => tracks.map(({ channels }) => channels),
  });
  expect(since("sound")).toEqual(all);
});

test("given up at once, it leaves what it knew as it was", async () => {
  const { engine } = watchedEngine();
  const renders = new Renders(engine, plan);
  const before = figuresOf(await update(renders, rig));
  const gone = new AbortController();
  gone.abort(new Error("overtaken"));
  await expect(update(renders, withSetting(rig, "Drift", "mix", 0.9), gone.signal)).rejects.toThrow(
    "overtaken",
  );
  expect(figuresOf(await update(renders, rig))).toEqual(before);
});
