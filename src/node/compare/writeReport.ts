import { basename, join } from "node:path";
import { jsonOf } from "../../text/json.js";
import { csvOf } from "../../words/csv.js";
import { assembleReport } from "../../work/compare/assembleReport.js";
import type { MatchedLevels } from "../../work/compare/matchedLevels.js";
import type { Report } from "../../work/compare/report.js";
import { writeWhole } from "../files/wholeFile.js";
import { beginPage, type PendingPage } from "../page/page.js";
import type { Comparison } from "./compareOptions.js";
import type { Prepared } from "./prepare.js";
import type { Tracks } from "./renderTracks.js";
import { writeReel } from "./writeReel.js";

/** All that was found; files are named without their folders. */
export function comparisonReport(
  { options, choice, recordings, recordedReference }: Prepared,
  { frames, tracks, phases }: Tracks,
  levels: MatchedLevels,
  names: ReadonlyMap<string, string>,
): Report {
  const { rig, rigFile, take } = options;
  return assembleReport({
    rig,
    rigFile: rigFile === null ? null : basename(rigFile),
    take: { ...take, file: basename(take.file) },
    choice,
    frames,
    readings: tracks.map(({ reading }) => reading),
    phases,
    recordings,
    levels,
    names,
    recordedReference,
  });
}

/** Writes JSON, CSV and the reel where one is asked for; the reel is made of the sounds, which are there already. */
export async function writeReport(
  folder: string,
  report: Report,
  { reel }: Pick<Comparison, "reel">,
): Promise<void> {
  writeWhole(join(folder, "report.json"), jsonOf(report), { force: false });
  writeWhole(join(folder, "report.csv"), csvOf(report), { force: false });
  if (reel) await writeReel(folder, report, reel);
}

/** Begins the page of a comparison, while its sounds are rendered. */
export function pageOf(
  { options, choice: { routings }, clips, recordings }: Prepared,
  signal: AbortSignal,
): PendingPage {
  const { rig, rigText, take, tailSeconds, sweep, pageTakes } = options;
  const moreTakes = pageTakes?.takes ?? [];
  const source = { rig, rigText, take, moreTakes, recordings, routings, clips, tailSeconds, signal };
  return beginPage(sweep ? { ...source, sweep } : source);
}

export async function writePage(
  folder: string,
  report: Report,
  page: PendingPage,
  { pageTakes }: Pick<Comparison, "pageTakes">,
): Promise<void> {
  const overTakes = pageTakes ? { overTakes: pageTakes.overTakes(report) } : {};
  writeWhole(join(folder, "report.html"), await page.finish(report, overTakes), { force: false });
}
