import type { Command } from "commander";
import type { TakeWords } from "../../node/rig/rigAndTake.js";
import { jsonOf } from "../../text/json.js";
import { ended } from "../../text/words.js";
import { newCommand, showFor } from "../command.js";
import { numberWord } from "../optionWords.js";
import { print } from "../output.js";
import { shared } from "../sharedOptions.js";

export function addCrosscheck(program: Command): void {
  newCommand(
    program,
    "crosscheck",
    "Every routing of standard parts by a second, independent engine too, and how far the two are apart.",
    "splitsum crosscheck my-rig/ferry-road.yaml --seconds 10",
  )
    .argument("<rig>", 'rig file; "-" reads standard input')
    .argument("[take]", "dry recording; the rig's own unless named (WAV, FLAC, MP3, AIFF, Ogg, M4A)")
    .addOption(shared.routings())
    .option(
      "--seconds <number>",
      "how much of the take is played, from its start",
      numberWord(0.1, 600, "seconds"),
      5,
    )
    .addOption(shared.takeChannel())
    .addOption(shared.allowTruncated())
    .addOption(shared.loading())
    .option("--json", "print JSON")
    .action(crosscheck);
}

type Words = TakeWords & {
  readonly routings?: readonly string[];
  readonly seconds: number;
  readonly json?: boolean;
};

async function crosscheck(rigFile: string, takeFile: string | undefined, words: Words, command: Command) {
  const { terminal, paint, progress, note } = showFor(command);
  const { readRigAndTake, refuseSilent, crosscheckRig } = await import("../work.js");
  const reading = progress("reading the take");
  const job = await readRigAndTake(rigFile, takeFile ?? null, words).finally(reading.end);
  refuseSilent(job.take);
  for (const notice of job.take.notices) note(`${job.take.file}: ${ended(notice)}`);
  const bar = progress("rendering");
  const report = await crosscheckRig({
    ...job,
    routings: words.routings ?? null,
    seconds: words.seconds,
    onProgress: bar.at,
  }).finally(bar.end);
  if (words.json) {
    print(jsonOf(report));
  } else {
    const { crosscheckText } = await import("../work.js");
    print(crosscheckText(report, terminal.columns, paint));
  }
  const { missedFault } = await import("../work.js");
  const fault = missedFault(report);
  if (fault) throw fault;
}
