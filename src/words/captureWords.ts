import { framesToMs } from "../sound/dsp/units.js";
import { fixed, frequency, noFigure, signed } from "../text/numbers.js";
import type { CapturedResponse } from "../work/capture/captured.js";
import type { CapturedUnit } from "../work/capture/capturedUnit.js";
import type { CaptureFacts } from "../work/capture/captureFacts.js";
import type { Bandwidth } from "../work/capture/passband.js";

/** What was found, by name: a cell a side of the response. */
export const captureRows = (captured: CapturedResponse): readonly (readonly string[])[] =>
  rowsOf(captured).map(([name, of]) => [name, ...captured.channels.map(of)]);

export const driftWords = ({ driftPpm }: CapturedResponse): string =>
  `Recorder against player: ${signed(driftPpm, 2)} ppm, taken out.`;

export const verdictWords = ({ standsForUnit }: CapturedResponse): string =>
  standsForUnit
    ? "The response can stand for the unit as it was set."
    : "The response can NOT stand for the unit:";

/** What is said of a capture, for who has fields in place of the command's options. */
export const withoutOptions = (words: string): string =>
  words
    .replace(/ \(--[^)]*\)/g, "")
    .replace("give --latency", "give its latency")
    .replace(/Start both together, record (.*), or use align\./, "Record $1.")
    .replace(/Name the other: --reference-channel \w+\./, "Change the two channels round.")
    .replace("gapSeconds", "gap");

type Row = readonly [string, (facts: CaptureFacts) => string];

function rowsOf({ latencyAgainst, startFrames, unit, response }: CapturedResponse): readonly Row[] {
  const against = latencyAgainst === "reference" ? "to the cable" : "to the start of the recording";
  return [
    [
      "first sound",
      ({ latencyMs, latencyFrames }) =>
        latencyMs === null
          ? "not known"
          : `${fixed(latencyMs, 3)} ms, ${fixed(latencyFrames, 2)} frames ${against}`,
    ],
    ["latency", () => latencyText(unit, response.rateHz)],
    ["file starts at", () => `${fixed(startFrames, 2)} frames`],
    ["file holds", () => (unit.holds === "all" ? "all that came back" : "the effect alone")],
    [
      "polarity",
      ({ invertsPolarity }) =>
        invertsPolarity === null ? "not clear" : invertsPolarity ? "inverted" : "as it went in",
    ],
    ["gain", ({ gainDb }) => `${signed(gainDb, 2)} dB`],
    ["within 3 dB", ({ within3Db }) => rangeText(within3Db)],
    ["within 10 dB", ({ within10Db }) => rangeText(within10Db)],
    [
      "EDT, T20, T30",
      ({ edtSeconds, t20Seconds, t30Seconds }) =>
        [edtSeconds, t20Seconds, t30Seconds]
          .map((time) => (time === null ? noFigure : `${fixed(time, 2)} s`))
          .join(", "),
    ],
    [
      "dry leak",
      ({ dryLeak }) =>
        dryLeak === null
          ? "none that stands out"
          : `${signed(dryLeak.levelDb, 1)} dB${dryLeak.toWetDb === null ? ", nothing else" : `, ${signed(dryLeak.toWetDb, 1)} dB to the rest`}`,
    ],
    [
      "distortion",
      ({ distortion }) =>
        distortion
          .map(({ order, levelDb }) => `${order}: ${levelDb === null ? noFigure : `${fixed(levelDb, 0)} dB`}`)
          .join(", "),
    ],
    [
      "noise",
      ({ noiseFloorDbfs, signalToNoiseDb }) =>
        noiseFloorDbfs === null
          ? "none"
          : `${fixed(noiseFloorDbfs, 1)} dBFS; response ${fixed(signalToNoiseDb, 0)} dB over it`,
    ],
    [
      "repeats differ",
      ({ timeVariance }) =>
        timeVariance === null
          ? "one sweep only"
          : timeVariance.differenceDb === null
            ? "not at all"
            : `${fixed(timeVariance.differenceDb, 0)} dB`,
    ],
  ];
}

function latencyText({ latencyFrames, latencyBy }: CapturedUnit, rateHz: number): string {
  if (latencyFrames === null) return "not known";
  return `${fixed(framesToMs(latencyFrames, rateHz), 3)} ms, ${latencyBy === "given" ? "as given" : "by the direct sound"}`;
}

const rangeText = ({ fromHz, toHz, endsWithTone }: Bandwidth): string =>
  `${frequency(fromHz)}${endsWithTone.low ? " (the tone's end)" : ""} to ${frequency(toHz)}${endsWithTone.high ? " (the tone's end)" : ""}`;
