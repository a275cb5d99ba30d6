import { renameSync, rmSync } from "node:fs";
import { basename, join, parse } from "node:path";
import { chooseRoutings } from "../../rig/routings/chooseRoutings.js";
import { refuseSilent, type Take } from "../../sound/audio/take.js";
import { uniqueFileNames } from "../../text/fileName.js";
import { jsonOf } from "../../text/json.js";
import { UserError } from "../../text/userError.js";
import { csvOfTakes } from "../../words/csv.js";
import { takesAnswerWords } from "../../words/takesWords.js";
import type { Report } from "../../work/compare/report.js";
import { type TakeReport, type TakesReport, takesReport } from "../../work/compare/takesReport.js";
import type { LongTake } from "../audio/readTake.js";
import { manifestFile } from "../files/manifest.js";
import { openOutputFolder } from "../files/outputFolder.js";
import { writeWhole } from "../files/wholeFile.js";
import { compare } from "./compare.js";
import type { CompareOptions } from "./compareOptions.js";
import { compareUnwritten } from "./compareUnwritten.js";

export interface CompareTakesOptions
  extends Omit<CompareOptions, "take" | "also" | "sweep" | "writes" | "pageTakes"> {
  readonly takes: readonly [Take | LongTake, ...(Take | LongTake)[]];
}

/**
 * The main job on several takes: a folder of sounds and a report for each, one page in which the take is chosen, and one
 * answer over all of them. `outDir` appears whole or not at all.
 * @throws as `compare` does
 * @example
 * ```ts
 * import { compareTakes, readRig, readTake } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * const how = { channel: "mean", allowTruncated: false } as const;
 * const takes = [await readTake("take.wav", how), await readTake("another.wav", how)] as const;
 * const options = { routings: ["series-mono", "parallel"], reference: null, tailSeconds: 2, bits: 24, match: true } as const;
 * const { report } = await compareTakes({ rig, rigFile: "rig.yaml", takes, outDir: "takes", force: true, ...options });
 * for (const { id, ranges } of report.routings) console.log(id, ranges.sideShare);
 * ```
 */
export async function compareTakes(
  options: CompareTakesOptions,
): Promise<{ report: TakesReport; outDir: string }> {
  const { takes, outDir, force, signal, pool, ...rest } = options;
  refuseTakes(takes);
  const output = await openOutputFolder(outDir, { force });
  try {
    const folders = uniqueFileNames(takes.map(({ file }) => parse(file).name));
    const share = progressOf(options);
    const one = async (n: number, more: Partial<CompareOptions>): Promise<TakeReport> => {
      const own = join(output.folder, folders[n]);
      const { report } = await compare({
        ...rest,
        take: takes[n],
        outDir: own,
        force: false,
        ...(signal ? { signal } : {}),
        onProgress: share(n),
        ...more,
      });
      // The whole folder has a list of its files; its parts need none.
      rmSync(join(own, manifestFile), { force: true });
      return { report, folder: folders[n] };
    };
    const others: TakeReport[] = [];
    for (let n = 1; n < takes.length; n++)
      others.push(await one(n, { writes: "sounds", ...(n === 1 && pool ? { pool } : {}) }));
    const all = (report: Report) => over(options, [{ report, folder: folders[0] }, ...others]);
    const overTakes = (report: Report) => {
      const over = all(report);
      const { lead, next } = takesAnswerWords(over);
      return { plan: over.answer.plan?.id ?? null, says: lead, next };
    };
    const first = await one(0, { pageTakes: { takes: takes.slice(1), overTakes } });
    renameSync(join(output.folder, folders[0], pageFile), join(output.folder, pageFile));
    const report = all(first.report);
    writeWhole(join(output.folder, "takes.json"), jsonOf(report), { force: false });
    writeWhole(join(output.folder, "takes.csv"), csvOfTakes(report), { force: false });
    signal?.throwIfAborted();
    await output.commit(signal);
    return { report, outDir };
  } catch (error) {
    output.discard();
    throw error;
  }
}

const pageFile = "report.html";

/** The same without files. @throws as `compare` does */
export async function compareTakesUnwritten(
  options: Omit<CompareTakesOptions, "outDir" | "force">,
): Promise<TakesReport> {
  const { takes, pool, ...rest } = options;
  refuseTakes(takes);
  const share = progressOf(options);
  const reports: TakeReport[] = [];
  for (const [n, take] of takes.entries()) {
    const early = n === 0 && pool ? { pool } : {};
    const report = await compareUnwritten({ ...rest, ...early, take, onProgress: share(n) });
    reports.push({ report, folder: "" });
  }
  const [first, ...others] = reports;
  return over(options, [first, ...others]);
}

type Chosen = Pick<CompareTakesOptions, "rig" | "routings" | "reference" | "plans">;

function over({ rig, routings, reference, plans }: Chosen, reports: readonly [TakeReport, ...TakeReport[]]) {
  return takesReport(rig, chooseRoutings(rig, routings, reference, plans).routings, reports);
}

/** How far all takes are, from how far one is. */
const progressOf =
  ({ takes, onProgress }: Pick<CompareTakesOptions, "takes" | "onProgress">) =>
  (n: number) =>
  (done: number, what: string): void =>
    onProgress?.((n + done) / takes.length, `${what} of ${basename(takes[n].file)}`);

/** An answer over takes hangs on each of them. */
function refuseTakes(takes: readonly (Take | LongTake)[]): void {
  for (const take of takes) refuseSilent(take);
  const same = takes.find(({ sha256 }, n) => takes.findIndex((other) => other.sha256 === sha256) < n);
  if (same) throw new UserError({ file: same.file, message: "is given twice. Name each take once." });
}
