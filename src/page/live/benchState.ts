import type { Rig } from "../../rig/model/rig.js";
import type { Take } from "../../sound/audio/take.js";
import { UserError } from "../../text/userError.js";
import type { Report } from "../../work/compare/report.js";
import type { Bench, BenchChange } from "../contract/bench.js";
import type { Kept } from "./keptChoices.js";
import type { PageInputs } from "./pageInputs.js";
import type { PageRecording } from "./takeFiles/pageRecordings.js";
import type { Clips } from "./takeFiles/pageSoundFiles.js";

/** What the page knows now. Who changes it tells of it. */
export class BenchState {
  /** As it was last without a fault; null before there was any. */
  rig: Rig | null;
  take: Take | null = null;
  /** Sound files that settings name, at the rate of the take. */
  clips: Clips = new Map();
  /** Of the real rig, playing this take. */
  recordings: readonly PageRecording[] = [];
  report: Report | null;
  kept: readonly Kept[];
  fields: Bench["fields"] = new Map();
  overview: Float32Array = new Float32Array(0);
  #progress: Bench["progress"] = { done: 0, what: "opening the take" };
  #fault: string | null = null;
  readonly #listeners = new Set<(change: BenchChange) => void>();

  constructor({ inputs, data }: PageInputs) {
    this.rig = inputs.rig;
    this.kept = inputs.kept ?? [];
    this.report = data.report;
  }

  get progress(): Bench["progress"] {
    return this.#progress;
  }
  get fault(): string | null {
    return this.#fault;
  }

  listen(listener: (change: BenchChange) => void): () => void {
    this.#listeners.add(listener);
    return () => void this.#listeners.delete(listener);
  }

  tell(change: BenchChange): void {
    for (const listener of this.#listeners) listener(change);
  }

  setProgress(progress: Bench["progress"]): void {
    this.#progress = progress;
    this.tell("progress");
  }

  setFault(fault: string | null): void {
    if (this.#fault === fault) return;
    this.#fault = fault;
    this.tell("fault");
  }

  /** Work has ended with an error, which a person is told in a sentence. */
  fail(error: unknown): void {
    if (!(error instanceof UserError)) console.error(error);
    const words = error instanceof Error ? error.message : String(error);
    this.setFault(error instanceof UserError ? words : `this could not be rendered: ${words}`);
    this.setProgress(null);
  }
}
