import type { Command } from "commander";
import { newCommand, showFor } from "../command.js";
import { print } from "../output.js";
import type { CompareWords } from "../prepareCompare.js";
import { shared } from "../sharedOptions.js";

export function addAnswer(program: Command): void {
  newCommand(
    program,
    "answer",
    "Which wiring to build and why, as plain text to paste into a reply; nothing is written.",
    "splitsum answer my-rig/ferry-road.yaml verse.wav --plans all",
  )
    .argument("<rig>", 'rig file; "-" reads standard input')
    .argument("[take]", "dry recording; the rig's own unless named (WAV, FLAC, MP3, AIFF, Ogg, M4A)")
    .addOption(shared.routings())
    .addOption(shared.plans())
    .addOption(shared.place())
    .addOption(shared.ask())
    .addOption(shared.reference())
    .addOption(shared.tail())
    .addOption(shared.takeChannel())
    .addOption(shared.allowTruncated())
    .option("--json", "print the answer as JSON")
    .action(answer);
}

type Words = Omit<CompareWords, "bits" | "match" | "out" | "force" | "also"> & { readonly json?: boolean };

async function answer(rigFile: string, takeFile: string | undefined, words: Words, command: Command) {
  const show = showFor(command);
  const reading = show.progress("reading the take");
  const { prepareCompare } = await import("../prepareCompare.js");
  const job = await prepareCompare(rigFile, takeFile ?? null, { ...words, bits: 24, match: true }).finally(
    reading.end,
  );
  for (const notice of job.take.notices) show.note(`${job.take.file}: ${notice}.`);
  const { compareUnwritten } = await import("../../node/compare/compareUnwritten.js");
  const { closeTake } = await import("../../node/audio/readTake.js");
  const { stoppable } = await import("../stoppable.js");
  const bar = show.progress("rendering");
  const report = await stoppable(
    (signal) => compareUnwritten({ ...job, signal, onProgress: bar.at }),
    bar.end,
  ).finally(() => {
    bar.end();
    closeTake(job.take);
  });
  if (words.json) {
    const { jsonOf } = await import("../../text/json.js");
    return print(jsonOf(report.answer));
  }
  const { answerText } = await import("../../words/answerText.js");
  print(answerText(report, show.terminal.columns));
}
