import { dbToGain } from "../../../sound/dsp/units.js";
import { partition } from "../../../work/compare/partition.js";
import type { TailRule } from "../../../work/render/render.js";
import type { FiguresResult, NamedWiring, PlayedTrack } from "./engineJobs.js";
import { leastOf } from "./leastOf.js";
import type { RenderEngine, RenderState } from "./renderState.js";

/** What is to be measured, and how long the sound is. */
export interface Measuring extends RenderState {
  readonly stale: readonly NamedWiring[];
  readonly frames: number;
  readonly responseFrames: number;
  readonly tail: TailRule;
  /** Of all wirings, for their loudness. */
  readonly tracks: readonly PlayedTrack[];
  readonly signal: AbortSignal;
  readonly onShare: (share: number) => void;
}

/** Measures wirings on all workers at once, shared out as `compare` shares them. */
export function measureAll(engine: RenderEngine, work: Measuring): Promise<FiguresResult[]> {
  const { take, clips, tail, stale, frames, responseFrames, signal, onShare } = work;
  const shares = partition(
    stale.map(({ wiring }) => wiring),
    engine.count,
    { rateHz: take.rateHz, clips },
  );
  const onFrames = leastOf(shares.length, (done) => onShare(done / frames));
  const { samples, rateHz } = take;
  const common = { take: samples, rateHz, clips, tail, frames, responseFrames } as const;
  return Promise.all(
    shares.map((members, n) =>
      engine.figures(
        {
          kind: "figures",
          wirings: members.map((member) => stale[member]),
          ...common,
          fieldGains: fieldGains(work.tracks),
        },
        { signal, onFrames: onFrames[n] },
      ),
    ),
  );
}

/** The edge of a picture of left against right lies so far above the loudness of the sound: room for its peaks. */
const fieldRoomDb = 16;

/** Gains that bring the loudness of each to one place in its picture, whatever the others are. */
function fieldGains(tracks: readonly PlayedTrack[]): Map<string, number> {
  return new Map(
    tracks.map(({ id, level: { integratedLufs } }) => [id, dbToGain(-(integratedLufs ?? 0) - fieldRoomDb)]),
  );
}
