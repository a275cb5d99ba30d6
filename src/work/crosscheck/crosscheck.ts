import type { Rig } from "../../rig/model/rig.js";
import type { PedalUse } from "../../rig/pedals/pedalModel.js";
import type { Routing } from "../../rig/routings/routing.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import { channelsOf, type HeldTake } from "../../sound/audio/takeSource.js";
import { initialiseFft } from "../../sound/dsp/fft.js";
import type { Block } from "../../sound/dsp/kernel.js";
import { secondsToFrames } from "../../sound/dsp/units.js";
import { loopLateness } from "../../sound/standard/loop.js";
import { played } from "../../sound/standard/nodes.js";
import type { StandardOfflineContext } from "../../sound/standard/webAudio.js";
import { compile, compileTaps } from "../render/compile.js";
import { render } from "../render/render.js";
import { noTail, tailRule } from "../render/tail.js";
import { type BuildUse, buildWiring, type HandedOver } from "./buildWiring.js";
import { type Difference, differenceOf, worstOf } from "./difference.js";
import { legsInto } from "./legs.js";
import { isTimeInvariant, notOfStandardNodes } from "./whyNotStandard.js";

export interface CrosscheckOptions {
  readonly rig: Rig;
  readonly routings: readonly Routing[];
  readonly take: { readonly samples: HeldTake; readonly rateHz: number };
  /** Sound files that settings name, at the take's rate. */
  readonly clips: PedalUse["clips"];
  /** The engine to check against: an OfflineAudioContext of two channels. */
  readonly openContext: (frames: number, rateHz: number) => StandardOfflineContext;
  /** Told the share that is done. */
  readonly onProgress?: (done: number, what: string) => void;
}

/** One routing, rendered twice; or why it was not. */
export interface CrosscheckedRouting extends Difference {
  readonly id: string;
  readonly label: string;
  /** Nothing in it swings; null when it was not compared. */
  readonly timeInvariant: boolean | null;
  /** What the RMS of the difference may be at the most; null when it was not compared. */
  readonly targetDbfs: number | null;
  readonly withinTarget: boolean | null;
  /** Pedals that no standard node makes, each with the reason: the engine's own sound stands in their place. */
  readonly handedOver: readonly string[];
  /** Why it was not compared; null when it was. */
  readonly skipped: string | null;
}

/** What single precision leaves room for where nothing swings, and where delays do. Chosen, no source. */
const targetsDbfs = { still: -100, swinging: -90 } as const;

/** Tails are compared as far as this. */
const tailSeconds = 3;

/**
 * Every routing, rendered by the engine and by an implementation of the W3C Web Audio API, and how far the two are apart.
 * What no standard node makes is handed over: the engine's sound at that box's outputs is played in its place, and what
 * arrives at it is compared by itself, so that all around it is judged. The engine reads swinging delays by straight lines for this, as the standard's DelayNode does.
 */
export async function crosscheck(options: CrosscheckOptions): Promise<readonly CrosscheckedRouting[]> {
  const { rig, routings, take, clips, openContext, onProgress = () => {} } = options;
  const loopLateFrames = await loopLateness(openContext, take.rateHz);
  const wirings = routings.flatMap(({ wiring }) => wiring ?? []);
  await initialiseFft();
  const ours = wirings.length > 0 ? byEngine(rig, wirings, take, clips) : [];
  const results: CrosscheckedRouting[] = [];
  for (const { id, label, wiring, reason } of routings) {
    if (!wiring) {
      results.push({ id, label, ...nothing, skipped: reason ?? "it is not possible with this rig" });
      continue;
    }
    const place = wirings.indexOf(wiring);
    onProgress(place / wirings.length, id);
    await aTurn();
    const frames = ours[place][0].length;
    const others = notOfStandardNodes(wiring, take.rateHz, loopLateFrames);
    const boxes = new Set(others.map((other) => other.id));
    const handedOver = soundOf(wiring, boxes, frames, take, clips);
    const use = { clips, loopLateFrames, handedOver };
    const legs = legsInto(wiring, boxes);
    const ahead = legs.length > 0 ? byEngine(rig, legs, take, clips, frames) : [];
    const differences: Difference[] = [];
    for (const [leg, sound] of [
      [wiring, ours[place]] as const,
      ...legs.map((each, n) => [each, ahead[n]] as const),
    ]) {
      const theirs = await byStandardNodes(openContext(frames, take.rateHz), leg, take.samples, use);
      differences.push(differenceOf(sound, theirs));
    }
    const difference = worstOf(differences);
    const timeInvariant = isTimeInvariant(wiring);
    const targetDbfs = timeInvariant ? targetsDbfs.still : targetsDbfs.swinging;
    const withinTarget = difference.rmsDbfs === null || difference.rmsDbfs <= targetDbfs;
    const reasons = [...new Set(others.map(({ why }) => why))];
    results.push({
      id,
      label,
      ...difference,
      timeInvariant,
      targetDbfs,
      withinTarget,
      handedOver: reasons,
      skipped: null,
    });
  }
  return results;
}

/** Lets what waits have its turn: a bar is drawn, a stop is heard. Rendering may not do so before it is done. */
const aTurn = () => new Promise((go) => setTimeout(go, 0));

const nothing = {
  rmsDbfs: null,
  peakDbfs: null,
  timeInvariant: null,
  targetDbfs: null,
  withinTarget: null,
  handedOver: [],
};

/** What the engine gives at the outputs of these boxes that have a cable, `frames` of it. */
function soundOf(
  wiring: Wiring,
  boxes: ReadonlySet<string>,
  frames: number,
  { samples, rateHz }: CrosscheckOptions["take"],
  clips: PedalUse["clips"],
): HandedOver {
  if (boxes.size === 0) return new Map();
  const graph = compileTaps([wiring], { rateHz, clips, interpolation: "linear" });
  const taps = wiring.cables.flatMap(({ from }, n) =>
    boxes.has(from.box) ? [{ from, output: graph.outputs[n], sound: new Float32Array(frames) }] : [],
  );
  let at = 0;
  render(graph, {
    take: samples,
    rateHz,
    tail: noTail,
    watched: 0,
    agree: () => frames,
    sink: (_outputs, count) => {
      for (const { output, sound } of taps) sound.set(output.subarray(0, count), at);
      at += count;
    },
  });
  return new Map(
    [...boxes].map((id) => [
      id,
      new Map(taps.flatMap(({ from, sound }) => (from.box === id ? [[from.jack, sound] as const] : []))),
    ]),
  );
}

/** Left and right of every wiring, all of one length: of `frames`, or until the tail has died. */
function byEngine(
  rig: Rig,
  wirings: readonly Wiring[],
  { samples, rateHz }: CrosscheckOptions["take"],
  clips: PedalUse["clips"],
  length: number | null = null,
): readonly Block[] {
  const graph = compile(wirings, { rateHz, clips, interpolation: "linear" });
  const most = length ?? samples.length + secondsToFrames(tailSeconds, rateHz);
  const channels = graph.outputs.map(() => new Float32Array(most));
  let at = 0;
  const frames = render(graph, {
    take: samples,
    rateHz,
    tail: tailRule(rig, tailSeconds),
    ...(length === null ? {} : { agree: () => length }),
    sink: (outputs, count) => {
      for (let k = 0; k < channels.length; k++) channels[k].set(outputs[k].subarray(0, count), at);
      at += count;
    },
  });
  return wirings.map((_, n) =>
    channels.slice(2 * n, 2 * n + 2).map((channel) => channel.subarray(0, frames)),
  );
}

async function byStandardNodes(
  context: StandardOfflineContext,
  wiring: Wiring,
  take: HeldTake,
  use: BuildUse,
): Promise<Block> {
  const sources = channelsOf(take).map((samples) => played(context, samples));
  buildWiring(context, wiring, sources, use).connect(context.destination);
  const sound = await context.startRendering();
  return [sound.getChannelData(0), sound.getChannelData(1)];
}
