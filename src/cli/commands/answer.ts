import type { Command } from "commander";
import { newCommand, showFor } from "../command.js";
import { onTakes, tellTakes } from "../onTakes.js";
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
    .argument("[takes...]", shared.takes)
    .addOption(shared.routings())
    .addOption(shared.plans())
    .addOption(shared.place())
    .addOption(shared.ask())
    .addOption(shared.reference())
    .addOption(shared.tail())
    .addOption(shared.takeChannel())
    .addOption(shared.allowTruncated())
    .addOption(shared.loading())
    .option("--json", "print the answer as JSON")
    .action(answer);
}

type Words = Omit<CompareWords, "bits" | "match" | "out" | "force" | "also"> & { readonly json?: boolean };

async function answer(rigFile: string, takeFiles: readonly string[], words: Words, command: Command) {
  const show = showFor(command);
  const reading = show.progress("reading the take");
  const { prepareCompare } = await import("../prepareCompare.js");
  const job = await prepareCompare(rigFile, takeFiles, { ...words, bits: 24, match: true }).finally(
    reading.end,
  );
  tellTakes(job, show);
  const bar = show.progress("rendering");
  const found = await onTakes(job, bar, async (how) => {
    const { compareUnwritten } = await import("../../node/compare/compareUnwritten.js");
    const { compareTakesUnwritten } = await import("../../node/compare/compareTakes.js");
    return job.moreTakes.length === 0
      ? compareUnwritten({ ...job, ...how })
      : compareTakesUnwritten({ ...job, takes: [job.take, ...job.moreTakes], ...how });
  });
  if (words.json) {
    const { jsonOf } = await import("../../text/json.js");
    return print(jsonOf(found.answer));
  }
  const { answerText } = await import("../../words/answerText.js");
  const { answerWords } = await import("../../words/answerWords.js");
  const { takesAnswerWords } = await import("../../words/takesWords.js");
  const told = "takes" in found ? takesAnswerWords(found) : answerWords(found);
  print(answerText(told, show.terminal.columns));
}
