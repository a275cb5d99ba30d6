import type { Rig } from "../../../rig/model/rig.js";
import type { Wiring } from "../../../rig/wiring/wiring.js";
import type { HeldTake } from "../../../sound/audio/takeSource.js";
import type { LevelReading } from "../../../sound/measure/match.js";
import type { Reading } from "../../../work/render/reading.js";
import type { TailRule } from "../../../work/render/render.js";
import type { StatesJob } from "../../../work/switches/measureStates.js";
import type { StereoField } from "../../contract/stereoField.js";
import type { CaptureJob } from "./captureJob.js";

/** What the page asks of its worker, and what it gets. Plain data: all of it can be posted. */
export type EngineJob = SoundJob | ResponsesJob | FiguresJob | SwitchStatesJob | PageReturnsJob | CaptureJob;

export interface NamedWiring {
  readonly id: string;
  readonly wiring: Wiring;
}

interface WiringsJob {
  readonly wirings: readonly NamedWiring[];
  readonly rateHz: number;
  /** Sound files that settings name, at `rateHz`, by the value of the setting. */
  readonly clips: ReadonlyMap<string, readonly Float32Array[]>;
  readonly tail: TailRule;
}

/** Render, so that it can be heard. */
export interface SoundJob extends WiringsJob {
  readonly kind: "sound";
  readonly take: HeldTake;
  /** Frames that the wirings that are not rendered anew need. */
  readonly leastFrames: number;
  /** Levels that are known, by id; the others are measured, and first sound comes later by a third. */
  readonly levels: ReadonlyMap<string, LevelReading>;
}

/** Find out how long each wiring's response to an impulse is: decay is read from responses of one length. */
export interface ResponsesJob extends WiringsJob {
  readonly kind: "responses";
}

/** Measure, as `compare` does. */
export interface FiguresJob extends WiringsJob {
  readonly kind: "figures";
  readonly take: HeldTake;
  /** Length of all renders, and of all responses to an impulse. */
  readonly frames: number;
  readonly responseFrames: number;
  /** Gain of each wiring in its picture of left against right; full scale is the picture's edge. */
  readonly fieldGains: ReadonlyMap<string, number>;
}

/** Measure the returns whose level the rig leaves open, as `compare` does. */
export interface PageReturnsJob extends Pick<WiringsJob, "rateHz" | "clips"> {
  readonly kind: "returns";
  readonly rig: Rig;
  /** Of the routings that the page has. */
  readonly ids: readonly string[];
  readonly take: HeldTake;
  readonly tailSeconds: number;
}

/** Measure states of footswitches, as `switches` does. */
export interface SwitchStatesJob extends StatesJob {
  readonly kind: "states";
}

export interface SoundResult {
  /** Length of every track. */
  readonly frames: number;
  readonly tracks: readonly PlayedTrack[];
}

/** One wiring's sound as it is played. */
export interface PlayedTrack {
  readonly id: string;
  /** Left and right; one channel where both are the same; of an open mixer: what arrives at each of its inputs. */
  readonly channels: readonly Float32Array[];
  /** Frames until its own tail has died. */
  readonly neededFrames: number;
  readonly level: LevelReading;
}

export interface ResponsesResult {
  readonly needs: readonly { readonly id: string; readonly frames: number }[];
}

export interface FiguresResult {
  readonly readings: readonly Reading[];
  readonly fields: readonly (StereoField & { readonly id: string })[];
}
