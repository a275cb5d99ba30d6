import { framesToMs } from "../../sound/dsp/units.js";
import type { CaptureResponse } from "./responseOf.js";

/**
 * What to write under a pedal in a rig file to put a captured response in its place. The file holds the effect's gain; of
 * a unit whose dry sound was parted from it, level, polarity and leak stand beside it. A file that holds all that came
 * back stands for the whole unit: its mix is 1.
 *
 * @param file the response's name, as the rig file will call it
 */
export function responseRigLines({ response, unit, startFrames }: CaptureResponse, file: string): string[] {
  const { rateHz, channels } = response;
  const lengthSeconds = Math.min(30, Math.ceil((100 * channels[0].length) / rateHz) / 100);
  const settings = [`file: ${JSON.stringify(file)}`, "levelled: false", `lengthSeconds: ${lengthSeconds}`];
  if (unit.holds === "all") settings.push("mix: 1");
  else if (unit.mix !== null && unit.mix < 1) settings.push(`mix: ${unit.mix}`);
  const { dryLeakDb, levelDb } = unit;
  // All that came back begins a little ahead of the direct sound's peak.
  const latencyFrames =
    unit.holds === "all" && unit.latencyFrames !== null ? startFrames : unit.latencyFrames;
  return [
    "model: response",
    `jacks: ${channels.length === 2 ? "mono-to-stereo" : "mono"}`,
    `settings: { ${settings.join(", ")} }`,
    ...(latencyFrames === null
      ? []
      : [`latencyMs: ${framesToMs(Math.max(0, latencyFrames), rateHz).toFixed(4)}`]),
    ...(unit.invertsPolarity ? ["invertsPolarity: true"] : []),
    ...(Math.abs(levelDb) >= 0.05 ? [`levelDb: ${levelDb.toFixed(2)}`] : []),
    ...(unit.keepsDryAtUnity ? ["dryPath: unity"] : []),
    ...(dryLeakDb === null
      ? []
      : ["canGoFullyWet: false", `dryLeakDb: ${Math.max(-80, dryLeakDb).toFixed(2)}`]),
  ];
}
