import { UserError } from "../../text/userError.js";
import { familiesOf } from "../../work/sweep/families.js";
import { figureNames } from "../../work/sweep/figures.js";
import { GridRigs } from "../../work/sweep/gridRigs.js";
import { JudgedResults } from "../../work/sweep/judgedResults.js";
import { rankByRenders } from "../../work/sweep/rankByRenders.js";
import { figuresToKeep } from "../../work/sweep/ranking.js";
import type { ResultsHead } from "../../work/sweep/resultsHead.js";
import { layoutOf, unitsOfShard } from "../../work/sweep/sweepLayout.js";
import { type SweepReport, sweepReport } from "../../work/sweep/sweepReport.js";
import { readWishes, type WishWords } from "../../work/sweep/wishes.js";
import { differencesOf } from "./inputs.js";
import { ResultIndex } from "./resultIndex.js";
import { entriesOf, readHead } from "./resultsFile.js";
import { refuseTables, writeSweep } from "./writeSweep.js";

export interface MergeOptions {
  /** Results files: all parts of one sweep, or one that is whole. */
  readonly files: readonly string[];
  readonly outDir: string;
  /** Other wishes than those that the sweep was begun with; null: the same. */
  readonly wishes: WishWords | null;
  /** Replace tables that are there, where they are as they were written. */
  readonly force: boolean;
}

export interface Merged {
  readonly report: SweepReport;
  readonly judged: JudgedResults;
  readonly files: readonly string[];
}

/**
 * Joins the parts of a sweep, ranks them and writes the tables: byte for byte those that one run gives. Needs neither
 * take nor rig, so that it also ranks anew by other wishes; what takes a render is then known of what was rendered before.
 * @throws UserError when parts are of different inputs, missing, named twice or not finished
 * @example
 * ```ts
 * import { merge, prepareSweep, readRig, readTake, sweep } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * const take = await readTake("take.wav", { channel: "mean", allowTruncated: false });
 * const groups = [[{ path: "mixer.returnDb", values: [-12, -6, 0] }]];
 * const request = { groups, sample: null, seed: 1, routings: ["parallel"], reference: null } as const;
 * const more = { tolerancePercent: null, draws: 20, tailSeconds: 2 };
 * const wishes = { want: ["sideShare>=0.1"], most: ["wetToDryDb"], least: [] };
 * const place = { rig, rigFile: "rig.yaml", take, outDir: "first", force: true, resume: false } as const;
 * const prepared = await prepareSweep({ ...place, request: { ...request, ...more }, wishes, best: 1, shard: null, threads: 1 });
 * await sweep(prepared);
 * // The same results, ranked anew by other wishes
 * const anew = { want: [], most: ["sideShare"], least: ["foldDownLossDb"] };
 * const { report } = await merge({ files: ["first/results.jsonl"], outDir: "anew", wishes: anew, force: true });
 * console.log(report.best[0]);
 * ```
 */
export async function merge({ files, outDir, wishes: words, force }: MergeOptions): Promise<Merged> {
  await refuseTables(outDir, force);
  const heads = files.map(readHead);
  const [head] = heads;
  if (!head) throw new UserError("there are no results to join. Name the files that sweep wrote (.jsonl).");
  refuseStrangers(files, heads);
  const layout = layoutOf(
    head.plan,
    familiesOf(head.plan, new GridRigs(head.rig, head.plan)),
    head.take.rateHz,
    head.shard?.of,
  );
  heads.forEach(({ shard }, n) => {
    refuseUnfinished(files[n], unitsOfShard(layout, shard));
  });
  const whole: ResultsHead = { ...head, shard: null, wishes: words ?? head.wishes };
  const wishes = readWishes(whole.wishes);
  const index = await ResultIndex.of(whole, files, figuresToKeep(wishes));
  index.refuseMissing();
  const judged = new JudgedResults(
    index,
    wishes,
    await rankByRenders(index, wishes, whole.best, async () => {}),
  );
  const report = sweepReport(judged);
  return { report, judged, files: await writeSweep(outDir, judged, report) };
}

function refuseStrangers(files: readonly string[], heads: readonly ResultsHead[]): void {
  const [first] = heads;
  const refuse = (file: string, message: string): never => {
    throw new UserError({ file, message: `${message}; nothing was written.` });
  };
  const seen = new Map<number, string>();
  heads.forEach((head, n) => {
    const file = files[n];
    const differences = differencesOf(first.inputs, head.inputs);
    if (differences.length > 0)
      refuse(file, `is of another sweep than ${files[0]}: ${differences.join(", ")} differs`);
    if (JSON.stringify(head.figureNames) !== JSON.stringify(figureNames))
      refuse(file, "was written by another version of splitsum, with other measures. Use that version");
    if (JSON.stringify([head.wishes, head.best]) !== JSON.stringify([first.wishes, first.best]))
      refuse(file, `was begun with other wishes than ${files[0]}. Run that part anew`);
    if (head.shard?.of !== first.shard?.of) refuse(file, `is not a part of the same division as ${files[0]}`);
    const part = head.shard?.part ?? 1;
    if (seen.has(part)) refuse(file, `is the same part as ${seen.get(part)}. Name each once`);
    seen.set(part, file);
  });
  const of = first.shard?.of ?? 1;
  const missing = Array.from({ length: of }, (_, n) => n + 1).filter((part) => !seen.has(part));
  if (missing.length === 0) return;
  const parts = missing.map((part) => `${part}/${of}`).join(", ");
  throw new UserError(
    `these parts are missing: ${parts}. Run them (--shard), then join all; nothing was written.`,
  );
}

function refuseUnfinished(file: string, units: readonly number[]): void {
  const left = new Set(units);
  for (const { entry } of entriesOf(file)) if (entry.kind === "unit") left.delete(entry.unit);
  if (left.size === 0) return;
  const message = `is not finished: ${left.size} of ${units.length} pieces of work are missing. Run it again with --resume; nothing was written.`;
  throw new UserError({ file, message });
}
