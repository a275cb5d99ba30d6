import { type Command, Option } from "commander";
import { jsonOf } from "../../text/json.js";
import { newCommand, showFor } from "../command.js";
import { print } from "../output.js";

export function addMeasure(program: Command): void {
  newCommand(
    program,
    "measure",
    "Width, level, tone and mono loss of any recordings, such as takes through the real boxes.",
    "splitsum measure parallel.wav dual-mono.wav --reference dual-mono.wav",
  )
    .argument("<files...>", "WAV, FLAC, MP3, AIFF, Ogg or M4A")
    .option("--reference <file>", "compare width and tone with this one; it is measured as well")
    .option("--allow-truncated", "use what there is of a file that is cut off")
    .option("--json", "print JSON")
    .addOption(new Option("--csv", "print CSV").conflicts("json"))
    .action(measure);
}

interface Words {
  readonly reference?: string;
  readonly allowTruncated?: boolean;
  readonly json?: boolean;
  readonly csv?: boolean;
}

async function measure(files: readonly string[], words: Words, command: Command) {
  const { terminal, progress } = showFor(command);
  const { measureFiles } = await import("../work.js");
  const bar = progress("reading");
  const measured = await measureFiles(files, {
    reference: words.reference ?? null,
    allowTruncated: words.allowTruncated ?? false,
    onProgress: bar.at,
  }).finally(bar.end);
  if (words.json) {
    return print(jsonOf(measured));
  }
  const { measuredCsv, measuredText } = await import("../work.js");
  print(words.csv ? measuredCsv(measured) : measuredText(measured, terminal.columns));
}
