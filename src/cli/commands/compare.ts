import { type Command, Option } from "commander";
import { jsonOf } from "../../text/json.js";
import type { Called } from "../closing.js";
import { newCommand, type Show, showFor } from "../command.js";
import { withEarlyThreads } from "../earlyThreads.js";
import { onTakes, tellTakes } from "../onTakes.js";
import { namedFileWord, spanWord } from "../optionWords.js";
import { print } from "../output.js";
import type { CompareWords } from "../prepareCompare.js";
import { repeatedWords } from "../repeatedWords.js";
import { shared } from "../sharedOptions.js";
import { keepTimings } from "../timings.js";

export function addCompare(program: Command): void {
  newCommand(
    program,
    "compare",
    "The main job: render a take through every wiring of a rig, match, measure; files, table, JSON and CSV.",
    "splitsum compare my-rig/ferry-road.yaml verse.wav --out renders/verse",
  )
    .argument("<rig>", 'rig file; "-" reads standard input')
    .argument("[takes...]", shared.takes)
    .option("-o, --out <folder>", "where the files go (default: renders/ and the rig's name)")
    .option("-f, --force", "replace a folder that an earlier comparison wrote")
    .addOption(shared.routings())
    .addOption(shared.plans())
    .addOption(shared.place())
    .addOption(shared.ask())
    .option(
      "--also <name=file>",
      "a recording of the real rig playing this take, beside the renders; may be given again",
      namedFileWord,
    )
    .addOption(shared.reference())
    .addOption(shared.tail())
    .addOption(choice("--bits <bits>", "per sample of the files; 32 is float", ["24", "16", "32"]))
    .option(
      "--reel [from..to]",
      "one more file, all choices one after the other over these seconds of the take (default: 0..12), with cue points and a list of start times",
      spanWord,
    )
    .option("--no-match", "leave levels as the wiring makes them")
    .addOption(shared.takeChannel())
    .addOption(shared.allowTruncated())
    .addOption(shared.loading())
    .option("-n, --dry-run", "tell what would be done, and write nothing")
    .option("--json", "print the report as JSON")
    .addOption(new Option("--timings", "what time goes into, to standard error").hideHelp())
    .action(compareCommand);
}

/** One of a few words, the first unless told otherwise. */
const choice = (flags: string, says: string, words: readonly [string, ...string[]]) =>
  new Option(flags, says).choices(words).default(words[0]);

type Words = Omit<CompareWords, "bits"> & {
  readonly bits: "16" | "24" | "32";
  readonly dryRun?: boolean;
  readonly json?: boolean;
  readonly timings?: boolean;
};
const bitsOf = { "16": 16, "24": 24, "32": 32 } as const;

async function compareCommand(rigFile: string, takeFiles: readonly string[], words: Words, command: Command) {
  const show = showFor(command);
  const timings = words.timings ? keepTimings() : undefined;
  timings?.at("read");
  if (words.dryRun) return tellPlan(await read(rigFile, takeFiles, words, show), words, show);
  const optionsWords = repeatedWords(command, ["routings", "plans", "place"]);
  const answerWords = repeatedWords(command, answerOptions);
  const called = { rigFile, takeFiles, answerWords, optionsWords };
  await withEarlyThreads(async (pool) => {
    const job = { ...(await read(rigFile, takeFiles, words, show)), pool };
    if (job.moreTakes.length > 0) return compareSeveral(job, words, called, show);
    const { compare } = await import("../work.js");
    const bar = show.progress("rendering");
    const { report, outDir } = await onTakes(job, bar, (how) =>
      compare({ ...job, ...how, ...(timings ? { timings } : {}) }),
    );
    timings?.at("print");
    if (words.json) printJson(report);
    else await printTable(report, outDir, called, show);
  });
  timings?.at("end");
}

async function read(rigFile: string, takeFiles: readonly string[], words: Words, show: Show) {
  const reading = show.progress("reading the take");
  const { prepareCompare } = await import("../work.js");
  const bits = bitsOf[words.bits];
  const job = await prepareCompare(rigFile, takeFiles, { ...words, bits }).finally(reading.end);
  tellTakes(job, show);
  return job;
}

/** Options on which an answer depends. */
const answerOptions = [
  "routings",
  "plans",
  "place",
  "ask",
  "reference",
  "tail",
  "takeChannel",
  "allowTruncated",
  "loading",
];

async function compareSeveral(job: Job, words: Words, files: Called, show: Show) {
  const { compareTakes } = await import("../work.js");
  const bar = show.progress("rendering");
  const takes = [job.take, ...job.moreTakes] as const;
  const { report, outDir } = await onTakes(job, bar, (how) => compareTakes({ ...job, takes, ...how }));
  if (words.json) return printJson(report);
  const { takesText, takesClosing } = await import("../work.js");
  print(takesText(report, show.terminal.columns, show.paint));
  print(`\n${takesClosing(outDir, files)}`);
}

type Job = Awaited<ReturnType<typeof read>>;
type Report = import("../../work/compare/report.js").Report;

async function tellPlan(job: Job, words: Words, { terminal }: Show) {
  const { comparePlan, planText } = await import("../work.js");
  const plan = comparePlan(job);
  return words.json ? printJson(plan) : print(planText(plan, terminal.columns));
}

const printJson = (value: unknown): void => print(jsonOf(value));

async function printTable(report: Report, outDir: string, files: Called, { terminal, paint }: Show) {
  const { answerLead, answerWords, compareTable, closingText } = await import("../work.js");
  const { columns } = terminal;
  print(`${answerLead(answerWords(report), columns, paint)}\n\n${compareTable(report, columns, paint)}`);
  print(`\n${closingText(report, outDir, files)}`);
}
