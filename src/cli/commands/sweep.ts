import { type Command, InvalidArgumentError } from "commander";
import type { PreparedSweep } from "../../node/sweep/prepareSweep.js";
import type { SweepDone } from "../../node/sweep/sweep.js";
import { jsonOf } from "../../text/json.js";
import { UserError } from "../../text/userError.js";
import { ended } from "../../text/words.js";
import { commandLine } from "../calledAs.js";
import { newCommand, type Show, showFor } from "../command.js";
import { listWord, oneMore, wholeWord } from "../optionWords.js";
import { print } from "../output.js";
import { shared } from "../sharedOptions.js";
import type { SweepCommandWords } from "../sweepWords.js";

export function addSweep(program: Command): void {
  newCommand(
    program,
    "sweep",
    "Many settings by many routings: computed, ranked by wishes, the trade-offs marked.",
    `splitsum sweep my-rig/ferry-road.yaml --routings parallel,parallel-after \\
  --vary "mixer.returnDb=-30..6/37" --vary "mixer.returnPan=-1..1/21" \\
  --want "sideShare>=0.05" --want "foldDownLossDb<=1"`,
  )
    .argument("<rig>", 'rig file; "-" reads standard input')
    .argument("[take]", "dry recording; the rig's own unless named (WAV, FLAC, MP3, AIFF, Ogg, M4A)")
    .option(
      "--vary <knob=values>",
      'a knob and what it is turned to: FROM..TO/STEPS (behind it "log" or "lin"), or a,b,c; several knobs with ; between them step together; may be given several times (default: the rig\'s sweep block, as all below)',
      oneMore,
    )
    .option("--want <wish>", 'a wish, as in "sideShare>=0.2"; may be given several times', oneMore)
    .option("--most <measures>", "measures that are better the more, the most important first", listWord)
    .option("--least <measures>", "measures that are better the less", listWord)
    .addOption(shared.routings())
    .addOption(shared.reference())
    .option("--sample <count>", "so many settings of the grid, drawn by chance", wholeWord(1, 1e6))
    .option("--seed <number>", "for everything drawn by chance (default: 1)", wholeWord(0, 2 ** 31 - 1))
    .option("--tolerance <percent>", "how far the second of two units is off, for dual-mono", percentWord)
    .option("--draws <count>", "second units to draw for each setting (default: 20)", wholeWord(1, 1000))
    .addOption(shared.tail())
    .option("--render-best <count>", "the best as matched files and a page to hear", wholeWord(1, 64))
    .option(
      "--shard <part/of>",
      "a fixed part of the sweep only, as 3/8; join parts by splitsum merge",
      shardWord,
    )
    .option("--resume", "go on where an earlier run stopped, or begin")
    .option("-f, --force", "begin anew where results are already")
    .option("-o, --out <folder>", "where the files go (default: renders/ and the rig's name, -sweep)")
    .option("--threads <count>", "threads to use (default: one a core)", wholeWord(1, 64))
    .addOption(shared.takeChannel())
    .addOption(shared.allowTruncated())
    .addOption(shared.loading())
    .option("-n, --dry-run", "tell how much there is to do and about how long it takes; write nothing")
    .option("--json", "print the best as JSON")
    .action(sweepCommand);
}

type Words = SweepCommandWords & { readonly dryRun?: boolean; readonly json?: boolean };

async function sweepCommand(rigFile: string, takeFile: string | undefined, words: Words, command: Command) {
  const show = showFor(command);
  if (words.shard && words.renderBest) {
    throw new UserError("--render-best needs the whole sweep; join the parts first: splitsum merge.");
  }
  const reading = show.progress("reading the take");
  const { sweepOptions, refuseSilent, prepareSweep, sweepSize, sweepPlanText } = await import("../work.js");
  const options = await sweepOptions(rigFile, takeFile ?? null, words).finally(reading.end);
  refuseSilent(options.take);
  for (const notice of options.take.notices) show.note(`${options.take.file}: ${ended(notice)}`);

  const planning = show.progress("planning");
  const prepared = await prepareSweep(options).finally(planning.end);
  const size = sweepSize(prepared);
  const { columns } = show.terminal;
  if (words.dryRun) {
    const { plan } = prepared.head;
    return words.json
      ? printJson({ schemaVersion: 1, ...size, plan })
      : print(sweepPlanText(prepared, size, columns));
  }
  if (words.renderBest) {
    const { refuseBest } = await import("../work.js");
    await refuseBest(options.outDir, options.rigFile);
  }
  show.note(sweepPlanText(prepared, size, columns, "short"));
  const bar = show.progress("computing");
  const { stoppable } = await import("../work.js");
  const told = await stoppable(async (signal) => {
    const running = { ...prepared, options: { ...prepared.options, signal, onProgress: bar.at } };
    const { sweep } = await import("../work.js");
    const start = performance.now();
    const done = await sweep(running);
    const seconds = (performance.now() - start) / 1000;
    const heard = words.renderBest ? await hear(running, done, words.renderBest) : [];
    return { done, seconds, heard };
  }, bar.end).finally(bar.end);
  await tell(prepared, told.done, { ...told, json: words.json ?? false, show });
}

async function hear({ options }: PreparedSweep, { judged }: SweepDone, count: number) {
  const { renderBest } = await import("../work.js");
  const { take, rigFile, outDir, request, threads, onProgress, signal } = options;
  return renderBest({
    judged,
    take,
    rigFile,
    outDir,
    count,
    tailSeconds: request.tailSeconds,
    ...(threads === undefined ? {} : { threads }),
    ...(onProgress ? { onProgress } : {}),
    ...(signal ? { signal } : {}),
  });
}

interface Telling {
  readonly seconds: number;
  readonly heard: readonly string[];
  readonly json: boolean;
  readonly show: Show;
}

async function tell({ options, head }: PreparedSweep, done: SweepDone, telling: Telling) {
  const { seconds, heard, json, show } = telling;
  const { outDir } = options;
  const { report, computed, resumed } = done;
  const files = [...done.files, ...heard];
  if (report === null) {
    if (json)
      return printJson({ schemaVersion: 1, shard: head.shard, computed, resumed, seconds, outDir, files });
    const { partText } = await import("../work.js");
    return print(partText(done, { seconds, outDir, shard: head.shard }, commandLine));
  }
  if (json) {
    const { schemaVersion, counts, best } = report;
    const { settings, algebra, rendered } = counts;
    return printJson({ schemaVersion, settings, algebra, rendered, seconds, counts, outDir, files, best });
  }
  const { sweepText } = await import("../work.js");
  const toHear = "Hear the best: the same words with --resume --render-best 3.";
  const { sweepClosing } = await import("../work.js");
  print(sweepText(report, show.terminal.columns, show.paint));
  print(
    `\n${sweepClosing({ report, outDir, files, seconds, computed, resumed, toHear }, show.terminal.columns)}`,
  );
}

const printJson = (value: unknown): void => print(jsonOf(value));

/** `5%` or `5`. */
function percentWord(text: string): number {
  const percent = Number(text.replace(/\s*%$/, ""));
  if (text.trim() !== "" && percent >= 0 && percent <= 50) return percent;
  throw new InvalidArgumentError("Write per cent from 0 to 50, as in 5%.");
}

function shardWord(text: string) {
  const match = /^(\d{1,6})\/(\d{1,6})$/.exec(text.trim());
  const [part, of] = match ? [Number(match[1]), Number(match[2])] : [0, 0];
  if (part >= 1 && part <= of) return { part, of };
  throw new InvalidArgumentError("Write a part and how many there are, counted from 1, as in 3/8.");
}
