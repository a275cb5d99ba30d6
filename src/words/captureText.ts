import { columnsText, wrapped } from "../text/columns.js";
import { count, duration, fixed, frequency, signed, trimmed } from "../text/numbers.js";
import type { CommandLine } from "../text/shellWord.js";
import { ended } from "../text/words.js";
import { doubtfulConfidence } from "../work/capture/align.js";
import type { AlignedFiles, CapturedResponse, WrittenTone } from "../work/capture/captured.js";
import { captureRows, driftWords, verdictWords } from "./captureWords.js";

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
  const { response, channels, statements, rigLines, recording } = captured;
  const seconds = response.frames / response.rateHz;
  const headings = channels.map(({ channel }) => ({ heading: [channel], align: "left" as const }));
  const table = columnsText([{ heading: [""], align: "left" }, ...headings], captureRows(captured));
  return [
    `${response.file}: ${count(response.channels, "channel")}, ${response.rateHz} Hz, ${fixed(seconds, 2)} s, 32-bit float`,
    table,
    driftWords(captured),
    [
      verdictWords(captured),
      ...[...statements, ...recording.notices.map((notice) => `${recording.file}: ${ended(notice)}`)].map(
        (line) => bullet(line, columns),
      ),
    ].join("\n"),
    `For the rig file, beside the response:\n${rigLines.map((line) => `  ${line}`).join("\n")}`,
  ].join("\n\n");
}

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
  const isDoubtful = confidence < doubtfulConfidence;
  const leak = isDoubtful
    ? "What dry sound beside this loop would meet is not known: the latency is not sure."
    : notches === ""
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
    isDoubtful
      ? wrapped(
          "No lines for the rig file: they would be as doubtful. Measure again with the test tone (`splitsum capture`), or give a stretch of the take in which more is played.",
          columns,
        )
      : `For the rig file:\n${rigLines.map((line) => `  ${line}`).join("\n")}`,
  ].join("\n\n");
}

const bullet = (line: string, columns: number): string => wrapped(line, columns, 4, "  ! ");
const bullets = (lines: readonly string[], columns: number): string =>
  lines.map((line) => bullet(line, columns)).join("\n");
