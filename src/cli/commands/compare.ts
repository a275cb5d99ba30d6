import { type Command, Option } from "commander";
import { newCommand, type Show, showFor } from "../command.js";
import { namedFileWord } from "../optionWords.js";
import { print } from "../output.js";
import type { CompareWords } from "../prepareCompare.js";
import { shared } from "../sharedOptions.js";

export function addCompare(program: Command): void {
  newCommand(
    program,
    "compare",
    "The main job: render a take through every wiring of a rig, match, measure; files, table, JSON and CSV.",
    "splitsum compare my-rig/ferry-road.yaml verse.wav --out renders/verse",
  )
    .argument("<rig>", 'rig file; "-" reads standard input')
    .argument("[take]", "dry recording; the rig's own unless named (WAV, FLAC, MP3, AIFF, Ogg, M4A)")
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
    .option("--no-match", "leave levels as the wiring makes them")
    .addOption(shared.takeChannel())
    .addOption(shared.allowTruncated())
    .option("-n, --dry-run", "tell what would be done, and write nothing")
    .option("--json", "print the report as JSON")
    .action(compareCommand);
}

/** One of a few words, the first unless told otherwise. */
const choice = (flags: string, says: string, words: readonly [string, ...string[]]) =>
  new Option(flags, says).choices(words).default(words[0]);

type Words = Omit<CompareWords, "bits"> & {
  readonly bits: "16" | "24" | "32";
  readonly dryRun?: boolean;
  readonly json?: boolean;
};
const bitsOf = { "16": 16, "24": 24, "32": 32 } as const;

async function compareCommand(rigFile: string, takeFile: string | undefined, words: Words, command: Command) {
  const show = showFor(command);
  const reading = show.progress("reading the take");
  const { prepareCompare } = await import("../prepareCompare.js");
  const job = await prepareCompare(rigFile, takeFile ?? null, {
    ...words,
    bits: bitsOf[words.bits],
  }).finally(reading.end);
  for (const notice of job.take.notices) show.note(`${job.take.file}: ${notice}.`);
  if (words.dryRun) return tellPlan(job, words, show);

  const { compare } = await import("../../node/compare/compare.js");
  const { closeTake } = await import("../../node/audio/readTake.js");
  const { stoppable } = await import("../stoppable.js");
  const bar = show.progress("rendering");
  const { report, outDir } = await stoppable(
    (signal) => compare({ ...job, signal, onProgress: bar.at }),
    bar.end,
  ).finally(() => {
    bar.end();
    closeTake(job.take);
  });

  if (words.json) return printJson(report);
  await printTable(report, outDir, rigFile, show);
}

type Job = Awaited<ReturnType<typeof import("../prepareCompare.js")["prepareCompare"]>>;
type Report = import("../../work/compare/report.js").Report;

async function tellPlan(job: Job, words: Words, { terminal }: Show) {
  const { comparePlan, planText } = await import("../comparePlan.js");
  const plan = comparePlan(job);
  return words.json ? printJson(plan) : print(planText(plan, terminal.columns));
}

async function printJson(value: unknown) {
  const { jsonOf } = await import("../../text/json.js");
  print(jsonOf(value));
}

async function printTable(report: Report, outDir: string, rigFile: string, { terminal, paint }: Show) {
  const { answerLead } = await import("../../words/answerText.js");
  const { compareTable } = await import("../../words/table.js");
  const { closingText } = await import("../closing.js");
  const { columns } = terminal;
  print(`${answerLead(report, columns, paint)}\n\n${compareTable(report, columns, paint)}`);
  print(`\n${closingText(report, outDir, rigFile)}`);
}
