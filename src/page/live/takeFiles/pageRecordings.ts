import type { Take } from "../../../sound/audio/take.js";
import type { LevelReading } from "../../../sound/measure/match.js";
import type { PageInputs } from "../pageInputs.js";
import { travelled } from "./pageTake.js";

/** A recording of the real rig, to be heard beside the renders. */
export interface PageRecording {
  readonly id: string;
  readonly channels: readonly Float32Array[];
  readonly level: LevelReading;
}

/** Recordings that came with the page, with their levels by the report; none beside another take than that of the report. */
export async function pageRecordings(
  { inputs, data: { report } }: PageInputs,
  { sha256, rateHz }: Pick<Take, "sha256" | "rateHz">,
): Promise<readonly PageRecording[]> {
  if (!report || sha256 !== report.take.sha256) return [];
  const found = inputs.recordings.map(async ({ id, sound }) => {
    const measures = report.routings.find((routing) => routing.id === id)?.measures;
    if (!measures) return [];
    const { integratedLufs, truePeakDbtp } = measures;
    return [{ id, channels: await travelled(sound, rateHz), level: { integratedLufs, truePeakDbtp } }];
  });
  return (await Promise.all(found)).flat();
}
