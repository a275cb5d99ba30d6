import { rmSync } from "node:fs";
import { join } from "node:path";
import type { Cell, Figure } from "../../sound/measure/measure.js";
import { csvLine } from "../../words/csv.js";
import { figureNames, widthKept } from "../../work/sweep/figures.js";
import type { JudgedResults } from "../../work/sweep/judgedResults.js";
import type { ResultNumber } from "../../work/sweep/results.js";
import { spreadNames, spreadOf } from "../../work/sweep/spread.js";
import type { SweepReport } from "../../work/sweep/sweepReport.js";
import { inPartFolder } from "../files/folderLock.js";
import { giveNames, makeFolder, type PartFile, refuseOtherAsync } from "../files/ownFiles.js";
import { openPartStream } from "../files/partStream.js";
import { pauses } from "../threads/pauses.js";

/** Names of the files that a sweep ends with. */
const sweepFiles = { csv: "sweep.csv", json: "sweep.json", spread: "spread.csv" } as const;

/**
 * @param replace  tables that are there may be replaced, where they are as the program wrote them
 * @throws UserError, before any work, when one is in the way
 */
export async function refuseTables(folder: string, replace: boolean): Promise<void> {
  for (const name of Object.values(sweepFiles)) await refuseOtherAsync(join(folder, name), replace);
}

/**
 * Writes every judged result, setting by setting in the order of the grid: as a table, and as JSON behind the report.
 * Both depend on the inputs alone, and memory does not grow with the results. Older tables are replaced, all or none.
 * @throws UserError when a file cannot be written, or one that is not the program's is in the way
 */
export async function writeSweep(
  folder: string,
  judged: JudgedResults,
  report: SweepReport,
  signal?: AbortSignal,
): Promise<readonly string[]> {
  makeFolder(folder);
  const ranks = new Map(judged.ranking.order.map((result, n) => [result, n + 1]));
  const hasSpread = report.counts.draws > 0;
  const names = Object.values(sweepFiles).filter((name) => hasSpread || name !== sweepFiles.spread);
  await inPartFolder(join(folder, sweepFiles.csv), async (parts) => {
    const pause = pauses(signal);
    const written = (name: string, work: (write: Write) => Promise<void>): Promise<PartFile> =>
      writePart({ path: join(folder, name), part: join(parts, name) }, work);
    const files = [
      await written(sweepFiles.csv, (write) => writeTable(write, judged, ranks, pause)),
      await written(sweepFiles.json, (write) => writeJson(write, judged, report, ranks, pause)),
      ...(hasSpread ? [await written(sweepFiles.spread, (write) => writeSpread(write, judged, pause))] : []),
    ];
    await refuseTables(folder, true);
    giveNames(files, true);
    if (!hasSpread) rmSync(join(folder, sweepFiles.spread), { force: true });
  });
  return names;
}

type Write = (text: string) => void;

async function writePart(
  { path, part }: Omit<PartFile, "hash">,
  work: (write: Write) => Promise<void>,
): Promise<PartFile> {
  const stream = openPartStream(part, path);
  try {
    await work((text) => stream.write(text));
    return { path, part, hash: stream.end() };
  } finally {
    stream.close();
  }
}

type Pause = ReturnType<typeof pauses>;
type Ranks = ReadonlyMap<ResultNumber, number>;

async function writeTable(write: Write, judged: JudgedResults, ranks: Ranks, pause: Pause): Promise<void> {
  const { index } = judged;
  const { routings } = index.head.plan;
  const paths = index.head.plan.groups.flat().map(({ path: knob }) => knob);
  const judgements = ["by", "rank", "meets", "front", "fellOut", widthKept];
  write(csvLine(["setting", "routing", ...paths, ...judgements, ...figureNames]));
  await readInGridOrder(judged, pause, (result, text) => {
    const { routing, setting } = index.keyOf(result);
    const settings = judged.settingsOf(result);
    const cells: Cell[] = [
      setting + 1,
      routings[routing],
      ...paths.map((knob) => settings[knob]),
      index.byAlgebra(result) ? "algebra" : "rendering",
      ranks.get(result) ?? null,
      judged.meets(result),
      judged.isOnFront(result),
      judged.fellOut(result),
      index.value(result, widthKept),
    ];
    // Numbers need no quotes, and stand in a list of JSON as they do in a table.
    const figures = judged.completed(result, text).slice(1, -1).replaceAll("null", "");
    write(`${csvLine(cells).trimEnd()},${figures}\r\n`);
  });
}

/** Each result on a line of its own; `settings` in the order of the knobs under `vary`. */
async function writeJson(
  write: Write,
  judged: JudgedResults,
  report: SweepReport,
  ranks: Ranks,
  pause: Pause,
): Promise<void> {
  const { index } = judged;
  const { routings } = index.head.plan;
  const head = JSON.stringify({ ...report, figureNames }, null, 1);
  write(`${head.slice(0, head.lastIndexOf("\n}"))},\n "results": [`);
  let isFirst = true;
  await readInGridOrder(judged, pause, (result, text) => {
    const { routing, setting } = index.keyOf(result);
    const row = {
      setting: setting + 1,
      routing: routings[routing],
      settings: Object.values(judged.settingsOf(result)),
      by: index.byAlgebra(result) ? "algebra" : "rendering",
      rank: ranks.get(result) ?? null,
      meets: judged.meets(result),
      front: judged.isOnFront(result),
      fellOut: judged.fellOut(result),
      widthKept: index.value(result, widthKept),
    };
    const figures = judged.completed(result, text);
    write(`${isFirst ? "" : ","}\n  ${JSON.stringify(row).slice(0, -1)},"figures":${figures}}`);
    isFirst = false;
  });
  write("\n ]\n}\n");
}

/** Least, median and most of each figure over the draws of a setting: three rows a setting. */
async function writeSpread(write: Write, judged: JudgedResults, pause: Pause): Promise<void> {
  const { index } = judged;
  const { routings, groups } = index.head.plan;
  const paths = groups.flat().map(({ path: knob }) => knob);
  write(csvLine(["setting", "routing", ...paths, "draws", "drawsMeeting", "of", ...spreadNames]));
  for (const result of inGridOrder(judged)) {
    const due = pause();
    if (due) await due;
    const spread = spreadOf(judged, result);
    if (spread === null) continue;
    const { routing, setting } = index.keyOf(result);
    const settings = judged.settingsOf(result);
    const facts = [setting + 1, routings[routing], ...paths.map((knob) => settings[knob])];
    for (const which of ["least", "median", "most"] as const) {
      const figures = spreadNames.map((name): Figure => spread[which][name]);
      write(csvLine([...facts, spread.draws, spread.meeting, which, ...figures]));
    }
  }
}

/** Results that are read together; between them the calling thread may hear of other things. */
const readTogether = 64;

async function readInGridOrder(
  judged: JudgedResults,
  pause: Pause,
  visit: (result: ResultNumber, figures: string) => void,
): Promise<void> {
  let some: ResultNumber[] = [];
  for (const result of inGridOrder(judged)) {
    some.push(result);
    if (some.length < readTogether) continue;
    judged.index.readTexts(some, visit);
    some = [];
    const due = pause();
    if (due) await due;
  }
  judged.index.readTexts(some, visit);
}

function* inGridOrder({ index }: JudgedResults): Generator<ResultNumber, void> {
  const { routings } = index.head.plan;
  for (let setting = 0; setting < index.settings; setting++) {
    for (let routing = 0; routing < routings.length; routing++) yield index.numberOf(routing, setting);
  }
}
