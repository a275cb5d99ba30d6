import type { Rig } from "../../rig/model/rig.js";
import type { PedalUse } from "../../rig/pedals/pedalModel.js";
import type { Routing } from "../../rig/routings/routing.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import { channelsOf, type HeldTake } from "../../sound/audio/takeSource.js";
import { initialiseFft } from "../../sound/dsp/fft.js";
import type { Block } from "../../sound/dsp/kernel.js";
import { secondsToFrames } from "../../sound/dsp/units.js";
import { compile } from "../render/compile.js";
import { render } from "../render/render.js";
import { tailRule } from "../render/tail.js";
import { type BuildUse, buildWiring } from "./buildWiring.js";
import { type Difference, differenceOf } from "./difference.js";
import { loopLateness } from "./loop.js";
import type { StandardOfflineContext } from "./webAudio.js";
import { isTimeInvariant, whyNotStandard } from "./whyNotStandard.js";

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
  /** Why it was not compared; null when it was. */
  readonly skipped: string | null;
}

/** What single precision leaves room for where nothing swings, and where delays do. Chosen, no source. */
const targetsDbfs = { still: -100, swinging: -80 } as const;

/** Tails are compared as far as this. */
const tailSeconds = 3;

/**
 * Every routing of standard nodes, rendered by the engine and by an implementation of the W3C Web Audio API, and how far
 * the two are apart. The engine reads swinging delays by straight lines for this, as the standard's DelayNode does.
 */
export async function crosscheck(options: CrosscheckOptions): Promise<readonly CrosscheckedRouting[]> {
  const { rig, routings, take, clips, openContext, onProgress = () => {} } = options;
  const loopLateFrames = await loopLateness(openContext, take.rateHz);
  const found = routings.map((routing) => ({
    ...routing,
    skipped: whySkipped(routing, take.rateHz, loopLateFrames),
  }));
  const wirings = found.flatMap(({ wiring, skipped }) => (wiring && skipped === null ? [wiring] : []));
  await initialiseFft();
  const ours = wirings.length > 0 ? byEngine(rig, wirings, take, clips) : [];
  const results: CrosscheckedRouting[] = [];
  for (const { id, label, wiring, skipped } of found) {
    if (!wiring || skipped !== null) {
      results.push({ id, label, ...nothing, skipped });
      continue;
    }
    const place = wirings.indexOf(wiring);
    onProgress(place / wirings.length, id);
    await aTurn();
    const frames = ours[place][0].length;
    const theirs = await byStandardNodes(openContext(frames, take.rateHz), wiring, take.samples, {
      clips,
      loopLateFrames,
    });
    const difference = differenceOf(ours[place], theirs);
    const timeInvariant = isTimeInvariant(wiring);
    const targetDbfs = timeInvariant ? targetsDbfs.still : targetsDbfs.swinging;
    const withinTarget = difference.rmsDbfs === null || difference.rmsDbfs <= targetDbfs;
    results.push({ id, label, ...difference, timeInvariant, targetDbfs, withinTarget, skipped });
  }
  return results;
}

/** Lets what waits have its turn: a bar is drawn, a stop is heard. Rendering may not do so before it is done. */
const aTurn = () => new Promise((go) => setTimeout(go, 0));

const nothing = { rmsDbfs: null, peakDbfs: null, timeInvariant: null, targetDbfs: null, withinTarget: null };

const whySkipped = ({ wiring, reason }: Routing, rateHz: number, loopLateFrames: number): string | null =>
  wiring ? whyNotStandard(wiring, rateHz, loopLateFrames) : (reason ?? "it is not possible with this rig");

/** Left and right of every wiring, all of one length. */
function byEngine(
  rig: Rig,
  wirings: readonly Wiring[],
  { samples, rateHz }: CrosscheckOptions["take"],
  clips: PedalUse["clips"],
): readonly Block[] {
  const graph = compile(wirings, { rateHz, clips, interpolation: "linear" });
  const most = samples.length + secondsToFrames(tailSeconds, rateHz);
  const channels = graph.outputs.map(() => new Float32Array(most));
  let at = 0;
  const frames = render(graph, {
    take: samples,
    rateHz,
    tail: tailRule(rig, tailSeconds),
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
  const sources = channelsOf(take).map((samples) => {
    const buffer = context.createBuffer(1, samples.length, context.sampleRate);
    buffer.getChannelData(0).set(samples);
    const source = context.createBufferSource();
    source.buffer = buffer;
    return source;
  });
  buildWiring(context, wiring, sources, use).connect(context.destination);
  for (const source of sources) source.start();
  const sound = await context.startRendering();
  return [sound.getChannelData(0), sound.getChannelData(1)];
}
