import { framesToMs } from "../sound/dsp/units.js";
import { columnsText, wrapped } from "../text/columns.js";
import { count, duration, fixed, frequency, noFigure, signed, trimmed } from "../text/numbers.js";
import type { CommandLine } from "../text/shellWord.js";
import { ended } from "../text/words.js";
import type { AlignedFiles, CapturedResponse, WrittenTone } from "../work/capture/captured.js";
import type { CapturedUnit } from "../work/capture/capturedUnit.js";
import type { CaptureFacts } from "../work/capture/captureFacts.js";
import type { Bandwidth } from "../work/capture/passband.js";

/** The tone as written, its cautions, and what to do with it. */
export function toneText(tone: WrittenTone, columns: number, command: CommandLine): string {
  const { file, descriptionFile, lengthSeconds, tone: settings, bandHz, cautions } = tone;
  const says = `${file}: ${duration(lengthSeconds)} at ${settings.rateHz} Hz, ${count(settings.repeats, "sweep")} from ${frequency(settings.fromHz)} to ${frequency(settings.toHz)} at ${settings.levelDbfs} dBFS; counts from ${frequency(bandHz[0])} to ${frequency(bandHz[1])}. Its description: ${descriptionFile}.`;
  return [
    wrapped(says, columns),
    bullets(cautions, columns),
    `Next: play it through the unit, record that, then\n  ${command("capture", "response", "RECORDING", "--tone", descriptionFile)}`,
  ].join("\n\n");
}

/** The facts of a capture in one column a side, what they mean, and the lines for the rig file. */
export function responseText(captured: CapturedResponse, columns: number): string {
  const { response, channels, statements, standsForUnit, rigLines, driftPpm, recording } = captured;
  const seconds = response.frames / response.rateHz;
  const headings = channels.map(({ channel }) => ({ heading: [channel], align: "left" as const }));
  const table = columnsText(
    [{ heading: [""], align: "left" }, ...headings],
    rowsOf(captured).map(([name, of]) => [name, ...channels.map(of)]),
  );
  const verdict = standsForUnit
    ? "The response can stand for the unit as it was set."
    : "The response can NOT stand for the unit:";
  return [
    `${response.file}: ${count(response.channels, "channel")}, ${response.rateHz} Hz, ${fixed(seconds, 2)} s, 32-bit float`,
    table,
    `Recorder against player: ${signed(driftPpm, 2)} ppm, taken out.`,
    [
      verdict,
      ...[...statements, ...recording.notices.map((notice) => `${recording.file}: ${ended(notice)}`)].map(
        (line) => bullet(line, columns),
      ),
    ].join("\n"),
    `For the rig file, beside the response:\n${rigLines.map((line) => `  ${line}`).join("\n")}`,
  ].join("\n\n");
}

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

/** A loop against its take: figures, notches of a leak, and the lines for the rig file. */
export function alignText(found: AlignedFiles, columns: number): string {
  const { latencyMs, latencyFrames, invertsPolarity, gainDb, confidence, spectralMatchDb } = found;
  const { leakNotchesHz, rigLines, cautions, dry, looped, latencyFramesWithin, gainDbWithin } = found;
  const rows = [
    ["latency", `${fixed(latencyMs, 3)} ms, ${fixed(latencyFrames, 2)} frames`],
    ["in 9 of 10", `${latencyFramesWithin.map((frames) => fixed(frames, 2)).join(" to ")} frames`],
    ["polarity", invertsPolarity ? "inverted" : "as it went in"],
    ["gain", `${signed(gainDb, 2)} dB`],
    ["in 9 of 10", `${gainDbWithin.map((db) => signed(db, 2)).join(" to ")} dB`],
    ["spectral match", `${fixed(spectralMatchDb, 2)} dB (0: the same tone)`],
    ["confidence", `${fixed(confidence, 2)} (0 chance, 1 no doubt)`],
  ];
  const notches = leakNotchesHz.map((hz) => `${trimmed(hz, hz < 100 ? 1 : 0)}`).join(", ");
  const leak =
    notches === ""
      ? "In `parallel`, dry sound beside this loop would meet no late copy of itself."
      : `In \`parallel\`, dry sound beside this loop would be notched at ${notches} Hz and on: let the unit run fully wet.`;
  const notices = [dry, looped].flatMap(({ file, notices: said }) =>
    said.map((notice) => `${file}: ${ended(notice)}`),
  );
  return [
    columnsText(
      [
        { heading: [""], align: "left" },
        { heading: [""], align: "left" },
      ],
      rows,
    ).trimStart(),
    wrapped(leak, columns),
    bullets([...cautions, ...notices], columns),
    `For the rig file:\n${rigLines.map((line) => `  ${line}`).join("\n")}`,
  ].join("\n\n");
}

const bullet = (line: string, columns: number): string => wrapped(line, columns, 4, "  ! ");
const bullets = (lines: readonly string[], columns: number): string =>
  lines.map((line) => bullet(line, columns)).join("\n");
