import type { Command } from "commander";
import type { TakeWords } from "../../node/rig/rigAndTake.js";
import { jsonOf } from "../../text/json.js";
import { ended } from "../../text/words.js";
import { newCommand, showFor } from "../command.js";
import { print } from "../output.js";
import { shared } from "../sharedOptions.js";

export function addLevels(program: Command): void {
  newCommand(
    program,
    "levels",
    "Gain staging: level on every cable, room to each box's limit, where a sum clips, and loading.",
    "splitsum levels my-rig/ferry-road.yaml verse.wav --routings parallel",
  )
    .argument("<rig>", 'rig file; "-" reads standard input')
    .argument("[take]", "dry recording; the rig's own unless named (WAV, FLAC, MP3, AIFF, Ogg, M4A)")
    .addOption(shared.routings())
    .addOption(shared.takeChannel())
    .addOption(shared.allowTruncated())
    .addOption(shared.loading())
    .option("--json", "print JSON")
    .action(levels);
}

type Words = TakeWords & { readonly routings?: readonly string[]; readonly json?: boolean };

async function levels(rigFile: string, takeFile: string | undefined, words: Words, command: Command) {
  const { terminal, paint, progress, note } = showFor(command);
  const { readRigAndTake, levelsOf } = await import("../work.js");
  const reading = progress("reading the take");
  const job = await readRigAndTake(rigFile, takeFile ?? null, words).finally(reading.end);
  for (const notice of job.take.notices) note(`${job.take.file}: ${ended(notice)}`);
  const bar = progress("playing the take");
  const report = await levelsOf(job, words.routings ?? null, bar.at).finally(bar.end);
  if (words.json) {
    return print(jsonOf(report));
  }
  const { levelsText } = await import("../work.js");
  print(levelsText(report, terminal.columns, paint));
}
