import type { LevelReference, Rig } from "../../rig/model/rig.js";
import type { PedalUse } from "../../rig/pedals/pedalModel.js";
import { wholeGainsOf } from "../../rig/wiring/boxGains.js";
import {
  type Box,
  inputJacks,
  inSignalOrder,
  type MixerBox,
  type SummingBox,
  type Wiring,
} from "../../rig/wiring/wiring.js";
import type { HeldTake } from "../../sound/audio/takeSource.js";
import { gainToDb } from "../../sound/dsp/units.js";
import { compileTaps } from "../render/compile.js";
import { render } from "../render/render.js";
import { noTail } from "../render/tail.js";
import { dbfsToDbu } from "./dbu.js";
import { isSum, type Limit, limitsOn, maximaOf } from "./limits.js";
import { TapMeter } from "./tapMeter.js";
import type { BoxLevel, CableLevel, FirstClip, Level, SumLevel, WiringLevels } from "./wiringLevels.js";

export interface GainStagingJob {
  readonly rig: Rig;
  readonly wirings: readonly { readonly id: string; readonly wiring: Wiring }[];
  /** Full scale 1. */
  readonly take: HeldTake;
  readonly rateHz: number;
  readonly clips: PedalUse["clips"];
  /** Told the frames of the take that are done. */
  readonly onFrames?: (frames: number) => void;
}

/**
 * Levels on every cable while the take plays, and how far each box is from what it states as its most. Nothing clips
 * in the render itself, so that a level over a limit tells by how much to come down.
 */
export function gainStaging({ rig, wirings, take, rateHz, clips, onFrames }: GainStagingJob): WiringLevels[] {
  const graph = compileTaps(
    wirings.map(({ wiring }) => wiring),
    { rateHz, clips },
  );
  // Cables of one signal share one buffer: it is metered once.
  const meters = new Map(graph.outputs.map((output) => [output, new TapMeter()]));
  const taps = wirings.map(({ wiring }) =>
    wiring.cables.map((cable) => limitsOn(cable, wiring, rig).map((limit) => new Watch(limit))),
  );
  const watches = taps
    .flat()
    .flatMap((list, n) => list.map((watch) => ({ watch, output: graph.outputs[n] })));
  render(graph, {
    take,
    rateHz,
    tail: noTail,
    watched: 0,
    sink: (_outputs, frames) => {
      for (const [output, meter] of meters) meter.push(output, frames);
      for (const { watch, output } of watches) watch.look(output, frames, meters.get(output)!);
    },
    ...(onFrames ? { onFrames } : {}),
  });
  let first = 0;
  return wirings.map(({ id, wiring }, n) => {
    const levels = wiring.cables.map((_, k) => levelOf(meters.get(graph.outputs[first + k])!, rig.reference));
    first += wiring.cables.length;
    return levelled({ id, wiring, rig, levels, watches: taps[n], rateHz });
  });
}

/** Waits for the first sample over a limit. */
class Watch {
  readonly limit: Limit;
  firstFrame: number | null = null;
  constructor(limit: Limit) {
    this.limit = limit;
  }
  look(samples: Float32Array, frames: number, { blockPeak, blockStart }: TapMeter): void {
    const { gain } = this.limit;
    if (this.firstFrame !== null || blockPeak <= gain) return;
    const over = samples.subarray(0, frames).findIndex((x) => Math.abs(x) > gain);
    this.firstFrame = blockStart + over;
  }
}

/** One wiring with what was metered on its cables, in their order. */
interface Metered {
  readonly id: string;
  readonly wiring: Wiring;
  readonly rig: Rig;
  readonly levels: readonly Level[];
  readonly watches: readonly (readonly Watch[])[];
  readonly rateHz: number;
}

function levelled(metered: Metered): WiringLevels {
  const boxes = inSignalOrder(metered.wiring);
  const cables = cableLevels(metered);
  return {
    id: metered.id,
    cables,
    boxes: boxes.map((box) => boxLevel(box, metered)),
    sums: boxes.filter(isSum).map((box) => sumLevel(box, metered)),
    firstClip: firstClip(boxes, metered),
    limitUnknown: boxes.filter((box) => !hasLimit(box, metered)).map(({ label }) => label),
  };
}

function cableLevels({ wiring, levels, watches }: Metered): readonly CableLevel[] {
  const boxes = inSignalOrder(wiring);
  const place = (id: string) => boxes.findIndex((box) => box.id === id);
  const label = (id: string) => boxes.find((box) => box.id === id)?.label ?? id;
  return wiring.cables
    .map((cable, n) => ({
      cable,
      level: levels[n],
      stated: watches[n].filter(({ limit }) => limit.by === "stated"),
    }))
    .sort((a, b) => place(a.cable.from.box) - place(b.cable.from.box))
    .map(({ cable: { from, to }, level, stated }) => ({
      from: label(from.box),
      fromJack: from.jack,
      to: label(to.box),
      toJack: to.jack,
      ...level,
      headroomDb: least(stated.map(({ limit }) => roomDb(level.peakDbfs, limit.dbfs))),
    }));
}

function boxLevel(box: Box, { wiring, rig, levels }: Metered): BoxLevel {
  const into = levels.filter((_, n) => wiring.cables[n].to.box === box.id);
  const outOf = levels.filter((_, n) => wiring.cables[n].from.box === box.id);
  const { maxInputDbu, maxOutputDbu } = maximaOf(box, wiring, rig);
  const [input, output] = [loudest(into), loudest(outOf)];
  return {
    box: box.label,
    kind: box.kind,
    input,
    output,
    maxInputDbu,
    maxOutputDbu,
    headroomDb: least([roomDb(input?.peakDbu, maxInputDbu), roomDb(output?.peakDbu, maxOutputDbu)]),
  };
}

function sumLevel(box: SummingBox | MixerBox, { wiring, levels, watches, rateHz }: Metered): SumLevel {
  const outputs = wiring.cables.flatMap((cable, n) => (cable.from.box === box.id ? [n] : []));
  const limits = outputs.flatMap((n) => watches[n]).filter(({ limit }) => limit.box.id === box.id);
  const peakDbfs = loudest(outputs.map((n) => levels[n]))?.peakDbfs ?? null;
  const { dbfs: limitDbfs, by: limitBy } = limits[0]?.limit ?? { dbfs: 0, by: "full-scale" };
  const overs = limits.flatMap(({ firstFrame }) => firstFrame ?? []);
  return {
    box: box.label,
    branches: wiring.cables.flatMap((cable, n) => {
      if (cable.to.box !== box.id) return [];
      const { peakDbfs: inDbfs } = levels[n];
      const gainDb = gainToDb(gainIntoSum(box, cable.to.jack));
      return [{ jack: cable.to.jack, peakDbfs: inDbfs === null ? null : inDbfs + gainDb }];
    }),
    peakDbfs,
    limitDbfs,
    limitBy,
    headroomDb: roomDb(peakDbfs, limitDbfs),
    firstOverSeconds: overs.length > 0 ? Math.min(...overs) / rateHz : null,
  };
}

/** Gain of an input on the bus that gets more of it. */
function gainIntoSum(box: SummingBox | MixerBox, jack: string): number {
  const input = inputJacks(box).indexOf(jack);
  return Math.max(...wholeGainsOf(box).map((row) => Math.abs(row[input])));
}

/** An instrument is its own level; of all others the take must stay under what they state. */
function hasLimit(box: Box, { wiring, rig }: Metered): boolean {
  if (box.kind === "take") return true;
  const { maxInputDbu, maxOutputDbu } = maximaOf(box, wiring, rig);
  return rig.reference !== null && (maxInputDbu !== null || maxOutputDbu !== null);
}

function firstClip(boxes: readonly Box[], { levels, watches, rateHz }: Metered): FirstClip | null {
  const broken = watches.flatMap((list, n) =>
    list.flatMap(({ firstFrame, limit }) =>
      firstFrame === null ? [] : [{ firstFrame, limit, level: levels[n] }],
    ),
  );
  const place = ({ limit }: { limit: Limit }) => boxes.indexOf(limit.box);
  broken.sort((a, b) => a.firstFrame - b.firstFrame || place(a) - place(b));
  const [first] = broken;
  if (!first) return null;
  const { box, jack, at, dbfs } = first.limit;
  const overDb = (first.level.peakDbfs ?? dbfs) - dbfs;
  return { box: box.label, jack, at, seconds: first.firstFrame / rateHz, overDb };
}

function levelOf({ peakDbfs, rmsDbfs }: TapMeter, reference: LevelReference | null): Level {
  const dbu = (dbfs: number | null) =>
    dbfs === null || reference === null ? null : dbfsToDbu(dbfs, reference);
  return { peakDbfs, rmsDbfs, peakDbu: dbu(peakDbfs), rmsDbu: dbu(rmsDbfs) };
}

const loudest = (levels: readonly Level[]): Level | null =>
  levels.reduce<Level | null>(
    (most, level) =>
      most === null || (level.peakDbfs ?? -Infinity) > (most.peakDbfs ?? -Infinity) ? level : most,
    null,
  );

/** The smallest of those that are known; null when none is. */
function least(rooms: readonly (number | null)[]): number | null {
  const known = rooms.filter((room) => room !== null);
  return known.length > 0 ? Math.min(...known) : null;
}

const roomDb = (level: number | null | undefined, limit: number | null): number | null =>
  level === null || level === undefined || limit === null ? null : limit - level;
