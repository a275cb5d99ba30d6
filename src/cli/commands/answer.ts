import type { Command } from "commander";
import { jsonOf } from "../../text/json.js";
import { newCommand, showFor } from "../command.js";
import { withEarlyThreads } from "../earlyThreads.js";
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
  const found = await withEarlyThreads(async (pool) => {
    const reading = show.progress("reading the take");
    const { prepareCompare, compareUnwritten, compareTakesUnwritten } = await import("../work.js");
    const asked = { ...words, bits: 24, match: true } as const;
    const job = { ...(await prepareCompare(rigFile, takeFiles, asked).finally(reading.end)), pool };
    tellTakes(job, show);
    const bar = show.progress("rendering");
    return onTakes(job, bar, async (how) =>
      job.moreTakes.length === 0
        ? compareUnwritten({ ...job, ...how })
        : compareTakesUnwritten({ ...job, takes: [job.take, ...job.moreTakes], ...how }),
    );
  });
  if (words.json) {
    return print(jsonOf(found.answer));
  }
  const { answerText, answerWords, takesAnswerWords } = await import("../work.js");
  const told = "takes" in found ? takesAnswerWords(found) : answerWords(found);
  print(answerText(told, show.terminal.columns));
}
