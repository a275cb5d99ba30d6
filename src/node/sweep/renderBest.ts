import { existsSync, realpathSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { toYaml } from "../../rig/file/toYaml.js";
import { longestLabel } from "../../rig/model/bounds.js";
import type { Rig } from "../../rig/model/rig.js";
import { modelOf } from "../../rig/pedals/models.js";
import type { Take } from "../../sound/audio/take.js";
import type { SettingValue } from "../../sound/dsp/kernel.js";
import { trimmed } from "../../text/numbers.js";
import { UserError } from "../../text/userError.js";
import { bestRig } from "../../work/sweep/bestRig.js";
import { settingsAt } from "../../work/sweep/grid.js";
import { GridRigs, wiringFor } from "../../work/sweep/gridRigs.js";
import type { JudgedResults } from "../../work/sweep/judgedResults.js";
import { pointsForPage } from "../../work/sweep/pointsForPage.js";
import { compare } from "../compare/compare.js";
import { refuseTaken } from "../files/outputFolder.js";
import { refuseOther, writeOwn } from "../files/ownFiles.js";

export interface RenderBestOptions {
  readonly judged: JudgedResults;
  readonly take: Take;
  readonly rigFile: string | null;
  readonly outDir: string;
  /** How many of the best. */
  readonly count: number;
  readonly tailSeconds: number;
  readonly threads?: number;
  readonly onProgress?: (done: number, what: string) => void;
  readonly signal?: AbortSignal;
}

/** Names of what is made, in the sweep's folder. */
const bestFiles = { folder: "best", rig: "best.yaml", page: "page" } as const;

/**
 * The best settings to hear: a rig file in which each stands as a wiring of its own, and the comparison of these:
 * matched files, report and page. And a page of the rig that was swept, which shows the sweep and sets the rig to any
 * setting of it.
 * @example
 * ```ts
 * import { prepareSweep, readRig, readTake, renderBest, sweep } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * const take = await readTake("take.wav", { channel: "mean", allowTruncated: false });
 * const groups = [[{ path: "mixer.returnDb", values: [-12, -6, 0] }]];
 * const request = { groups, sample: null, seed: 1, routings: ["parallel"], reference: null } as const;
 * const more = { tolerancePercent: null, draws: 20, tailSeconds: 2 };
 * const wishes = { want: ["sideShare>=0.1"], most: ["wetToDryDb"], least: [] };
 * const place = { rig, rigFile: "rig.yaml", take, outDir: "best", force: true, resume: false } as const;
 * const prepared = await prepareSweep({ ...place, request: { ...request, ...more }, wishes, best: 1, shard: null, threads: 1 });
 * const { judged } = await sweep(prepared);
 * const files = await renderBest({ judged, take, rigFile: "rig.yaml", outDir: "best", count: 1, tailSeconds: 2, threads: 1 });
 * console.log(files);
 * ```
 */
export async function renderBest(options: RenderBestOptions): Promise<readonly string[]> {
  const { judged, take, rigFile, outDir, count, tailSeconds, onProgress, signal, threads } = options;
  await refuseBest(outDir, rigFile);
  const from = dirname(rigFile ?? ".");
  const rig = withFilesFrom(rigOfBest(judged, count), (file) =>
    relative(resolve(outDir), resolve(from, file)),
  );
  const bestRigFile = join(outDir, bestFiles.rig);
  const text = toYaml({ ...rig, take: relative(resolve(outDir), resolve(take.file)) });
  writeOwn([{ path: bestRigFile, content: text }], { force: true });
  const common = {
    take,
    force: true,
    tailSeconds,
    bits: 24,
    match: true,
    ...(threads === undefined ? {} : { threads }),
    ...(onProgress ? { onProgress } : {}),
    ...(signal ? { signal } : {}),
  } as const;
  await compare({
    ...common,
    rig,
    rigFile: bestRigFile,
    outDir: join(outDir, bestFiles.folder),
    routings: Object.keys(rig.wirings),
    reference: null,
  });
  const { head } = judged.index;
  await compare({
    ...common,
    rig: head.rig,
    rigFile,
    outDir: join(outDir, bestFiles.page),
    routings: head.plan.routings,
    reference: head.plan.reference,
    writes: "page",
    sweep: pointsForPage(judged),
  });
  return [bestFiles.rig, `${bestFiles.folder}/`, `${bestFiles.page}/report.html`];
}

/**
 * What `renderBest` writes replaces what it wrote before, unless that was changed since.
 * @throws UserError, before any work, when something else is in the way
 */
export async function refuseBest(outDir: string, rigFile: string | null): Promise<void> {
  const file = join(outDir, bestFiles.rig);
  if (rigFile !== null && existsSync(file) && realpathSync(file) === realpathSync(rigFile)) {
    const message = "is the rig that is swept. Name another folder by --out; nothing was written.";
    throw new UserError({ file, message });
  }
  refuseOther(file, true);
  await refuseTaken(join(outDir, bestFiles.folder), true);
  await refuseTaken(join(outDir, bestFiles.page), true);
}

/** Sound files that settings name, named from another folder. */
function withFilesFrom(rig: Rig, renamed: (file: string) => string): Rig {
  const pedals = rig.pedals.map((pedal) => {
    const table = modelOf(pedal.model).settings;
    const settings = Object.entries(pedal.settings).map(([key, value]) => {
      const isFile = key in table && "file" in table[key];
      return [key, isFile && typeof value === "string" ? renamed(value) : value] as const;
    });
    return { ...pedal, settings: Object.fromEntries(settings) };
  });
  return { ...rig, pedals };
}

function rigOfBest({ index, ranking }: JudgedResults, count: number): Rig {
  const { rig, plan } = index.head;
  const gridRigs = new GridRigs(rig, plan);
  const best = ranking.order.slice(0, count).map((result, n) => {
    const { routing, setting } = index.keyOf(result);
    const id = plan.routings[routing];
    return {
      id: `best-${n + 1}`,
      label: labelOf(n + 1, id, settingsAt(plan.groups, index.places[setting])),
      wiring: wiringFor(gridRigs.rigAt(index.places[setting], 0), id),
    };
  });
  return bestRig(rig, best);
}

/** "1: parallel, returnDb -6, returnPan 0.2": what tells it from the others, as far as it fits. */
function labelOf(rank: number, routing: string, settings: Readonly<Record<string, SettingValue>>): string {
  const knobs = Object.entries(settings).map(([path, value]) => {
    const shown = typeof value === "number" ? trimmed(value, 3) : String(value);
    return `${path.slice(path.lastIndexOf(".") + 1)} ${shown}`;
  });
  return [`${rank}: ${routing}`, ...knobs].join(", ").slice(0, longestLabel);
}
