import { framesToMs } from "../../sound/dsp/units.js";
import type { CaptureResponse } from "./responseOf.js";

/** Dry sound this far below the wet, or nearer, was mixed in and did not leak. */
const leastMixDb = -10;

/**
 * What to write under a pedal in a rig file to put a captured response in its place. The file holds gain and polarity,
 * so neither is written again. A file with as much dry sound in it as a mix has stands for the whole unit: its mix is 1.
 *
 * @param file the response's name, as the rig file will call it
 */
export function responseRigLines(captured: CaptureResponse, file: string): string[] {
  const { response, channels, startFrames, latencyAgainst } = captured;
  const { rateHz } = response;
  const lengthSeconds = Math.min(30, Math.ceil((100 * response.channels[0].length) / rateHz) / 100);
  const settings = [`file: ${JSON.stringify(file)}`, "levelled: false", `lengthSeconds: ${lengthSeconds}`];
  const mixed = channels.some(({ dryLeak }) => dryLeak !== null && (dryLeak.toWetDb ?? 0) > leastMixDb);
  if (mixed) settings.push("mix: 1");
  const known = latencyAgainst === "reference" || channels.every((facts) => facts.latencyFrames !== null);
  const latencyMs = framesToMs(Math.max(0, startFrames), rateHz);
  return [
    "model: response",
    `jacks: ${response.channels.length === 2 ? "mono-to-stereo" : "mono"}`,
    `settings: { ${settings.join(", ")} }`,
    ...(known ? [`latencyMs: ${latencyMs.toFixed(4)}`] : []),
  ];
}
