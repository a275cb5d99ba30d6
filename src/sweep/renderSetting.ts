import { renderPart, type TrackSink } from "../compare/renderPart.js";
import { tailRule } from "../compare/tail.js";
import { combOf } from "../wiring/dryPaths.js";
import { type Figure, figuresOf } from "./figures.js";
import type { SweepInputs } from "./renderBlock.js";
import { Tuner, wiringFor } from "./tuner.js";

export interface RenderSettingJob extends SweepInputs {
  readonly setting: number;
  /** Of the setting in the grid. */
  readonly place: number;
  readonly routing: string;
}

/** Renders one setting by itself, as a comparison does, and measures its sound: with true peak and decay. */
export function renderSetting(job: RenderSettingJob): Figure[] {
  const { rig, plan, take, rateHz, clips, place, routing } = job;
  const turned = new Tuner(rig, plan).rigAt(place, 0);
  const wiring = wiringFor(turned, routing);
  const tailSeconds = (plan.frames - take.length) / rateHz;
  const { readings } = renderPart(
    {
      wirings: [{ id: routing, wiring }],
      take,
      rateHz,
      clips,
      tail: tailRule(turned, tailSeconds),
      folder: "",
      meeting: null,
      parts: 1,
      progress: new Int32Array(1),
      part: 0,
    },
    () => nowhere,
    (needed, round) => (round === 0 ? plan.frames : needed),
  );
  const [{ measures, wetToDryDb, decay }] = readings;
  return figuresOf({ ...measures, wetToDryDb, decay: decay.decay, comb: combOf(wiring) });
}

const nowhere: TrackSink = { place: "", write: () => {}, close: () => {} };
