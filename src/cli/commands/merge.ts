import type { Command } from "commander";
import { jsonOf } from "../../text/json.js";
import { newCommand, showFor } from "../command.js";
import { listWord, oneMore } from "../optionWords.js";
import { print } from "../output.js";
import type { WishOptions } from "../sweepWords.js";

export function addMerge(program: Command): void {
  newCommand(
    program,
    "merge",
    "Join the parts of a sweep and rank them; or rank a whole one anew by other wishes. Needs no take.",
    "splitsum merge renders/parts/part-*.jsonl --out renders/joined",
  )
    .argument("<files...>", "results that sweep wrote (.jsonl): all parts of one sweep")
    .option("--want <wish>", 'a wish, as in "sideShare>=0.2"; may be given several times', oneMore)
    .option("--most <measures>", "measures that are better the more, the most important first", listWord)
    .option("--least <measures>", "measures that are better the less", listWord)
    .option("-o, --out <folder>", "where sweep.csv and sweep.json go (default: beside the first file)")
    .option("-f, --force", "replace tables that are there already")
    .option("--json", "print the best as JSON")
    .action(mergeCommand);
}

type Words = WishOptions & {
  readonly out?: string;
  readonly force?: boolean;
  readonly json?: boolean;
};

async function mergeCommand(files: readonly string[], words: Words, command: Command) {
  const { terminal, paint, progress } = showFor(command);
  const { dirname } = await import("node:path");
  const { merge, wishesOf } = await import("../work.js");
  const bar = progress("joining");
  const outDir = words.out ?? dirname(files[0]);
  const start = performance.now();
  const options = { files, outDir, wishes: wishesOf(words), force: words.force ?? false };
  const { report, files: written } = await merge(options).finally(bar.end);
  const seconds = (performance.now() - start) / 1000;
  if (words.json) {
    const { schemaVersion, counts, best } = report;
    const { settings, algebra, rendered } = counts;
    return print(
      jsonOf({ schemaVersion, settings, algebra, rendered, seconds, counts, outDir, files: written, best }),
    );
  }
  const { sweepText, sweepClosing } = await import("../work.js");
  print(sweepText(report, terminal.columns, paint));
  const toHear =
    "Hear the best: sweep as a whole, without --shard, with these wishes and --render-best 3, into another folder.";
  const resumed = report.counts.results;
  const closing = { report, outDir, files: written, seconds, computed: 0, resumed, toHear };
  print(`\n${sweepClosing(closing, terminal.columns)}`);
}
