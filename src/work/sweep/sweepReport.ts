import type { AxisGroup } from "../../rig/model/axis.js";
import { wiringOf } from "../../rig/routings/routingsOf.js";
import { loadingNote } from "../../rig/wiring/loadingNote.js";
import type { SettingValue } from "../../sound/dsp/kernel.js";
import type { Figure } from "../../sound/measure/measure.js";
import { figureNames, namedFigures, widthKept } from "./figures.js";
import { completed, type JudgedResults } from "./judgedResults.js";
import { variantsOf } from "./plan.js";
import { comparedFigures } from "./renderFigures.js";
import type { ResultNumber } from "./results.js";
import { type Spread, spreadOf } from "./spread.js";
import { type Aim, type Wish, wishText } from "./wishes.js";

const sweepSchemaVersion = 1;

/** What a sweep found, without its single results; `sweep.json` is this and `results`. */
export interface SweepReport {
  readonly schemaVersion: typeof sweepSchemaVersion;
  readonly rig: { readonly name: string; readonly file: string | null; readonly playsInto: string };
  readonly take: {
    readonly file: string;
    readonly sha256: string;
    readonly rateHz: number;
    readonly frames: number;
    readonly channels: number;
  };
  /** Length of every render, tail included. */
  readonly frames: number;
  readonly tailSeconds: number;
  /** Knobs of one group step together; groups are crossed, the last one fastest. */
  readonly vary: readonly AxisGroup[];
  readonly sample: number | null;
  readonly seed: number;
  readonly routings: readonly { readonly id: string; readonly label: string }[];
  /** Whether loading is in the sound, and by what assumptions. */
  readonly loadingNote: string;
  /** The routing that width is compared with. */
  readonly reference: string | null;
  readonly tolerance: { readonly percent: number; readonly draws: number } | null;
  readonly want: readonly Wish[];
  readonly aims: readonly Aim[];
  readonly counts: {
    readonly settings: number;
    /** Settings by routings. */
    readonly results: number;
    readonly algebra: number;
    readonly rendered: number;
    /** Second units that were drawn, over all settings. */
    readonly draws: number;
    readonly meeting: number;
    /** Results that meet every wish but those that take a render, and were not rendered. */
    readonly open: number;
  };
  /** How many results miss each wish. */
  readonly fellOut: readonly { readonly wish: string; readonly results: number }[];
  readonly best: readonly BestResult[];
  /** The best of `dual-mono`, where its second units are drawn: with their spread. */
  readonly pair: BestResult | null;
}

export interface BestResult {
  readonly rank: number;
  /** Counted from 1. */
  readonly setting: number;
  readonly routing: string;
  readonly by: "algebra" | "rendering";
  readonly settings: Readonly<Record<string, SettingValue>>;
  /** Null: not known without a render. */
  readonly meets: boolean | null;
  readonly front: boolean;
  readonly fellOut: string | null;
  readonly measures: Readonly<Record<string, Figure>>;
  /** What rendering it by itself gave otherwise than the algebra: the rounding of sound to single precision. */
  readonly algebraOff: Readonly<Record<string, number>> | null;
  readonly spread: Spread | null;
}

export function sweepReport(judged: JudgedResults): SweepReport {
  const { index, wishes, ranking } = judged;
  const { head } = index;
  const { plan, take, rig } = head;
  const { groups, sample, seed, routings, reference, tolerance, frames } = plan;
  const all = ranking.order;
  const draws = routings.reduce((sum, routing) => sum + index.settings * (variantsOf(plan, routing) - 1), 0);
  const algebra = all.filter((result) => index.byAlgebra(result)).length;
  return {
    schemaVersion: sweepSchemaVersion,
    rig: { name: rig.name, file: head.rigFile, playsInto: rig.playsInto },
    take,
    frames,
    tailSeconds: (frames - take.frames) / take.rateHz,
    vary: groups,
    sample,
    seed,
    routings: routings.map((id) => ({ id, label: head.labels[id] ?? id })),
    loadingNote: loadingNote(
      rig,
      routings.flatMap((id) => wiringOf(rig, id) ?? []),
    ),
    reference,
    tolerance,
    want: wishes.want,
    aims: wishes.aims,
    counts: {
      settings: index.settings,
      results: all.length,
      algebra,
      rendered: all.length - algebra,
      draws,
      meeting: ranking.meeting,
      open: all.filter((result) => judged.meets(result) === null).length,
    },
    fellOut: wishes.want.map((wish) => ({
      wish: wishText(wish),
      results: all.filter((result) => ranking.missed(result).includes(wish)).length,
    })),
    best: resultsOf(judged, all.slice(0, head.best)),
    pair: draws > 0 ? (resultsOf(judged, pairs(judged).slice(0, 1))[0] ?? null) : null,
  };
}

/** Results of routings with draws, the best first. */
const pairs = ({ index, ranking }: JudgedResults): ResultNumber[] =>
  ranking.order.filter((result) => {
    const { plan } = index.head;
    return variantsOf(plan, plan.routings[index.keyOf(result).routing]) > 1;
  });

function resultsOf(judged: JudgedResults, results: readonly ResultNumber[]): BestResult[] {
  const { index, ranking } = judged;
  const { routings } = index.head.plan;
  const found = new Map<ResultNumber, readonly Figure[]>();
  index.read(results, (result, figures) => {
    found.set(result, figures);
  });
  return results.map((result) => {
    const { routing, setting } = index.keyOf(result);
    const figures = found.get(result) ?? [];
    const render = judged.settled.has(result) ? index.rendered.get(result) : undefined;
    return {
      rank: ranking.order.indexOf(result) + 1,
      setting: setting + 1,
      routing: routings[routing],
      by: index.byAlgebra(result) ? "algebra" : "rendering",
      settings: judged.settingsOf(result),
      meets: judged.meets(result),
      front: judged.isOnFront(result),
      fellOut: judged.fellOut(result),
      measures: {
        ...namedFigures(render ? completed(figures, render) : figures),
        ...(index.head.plan.reference === null ? {} : { [widthKept]: index.value(result, widthKept) }),
      },
      algebraOff: render && index.byAlgebra(result) ? algebraOff(figures, render) : null,
      spread: spreadOf(judged, result),
    };
  });
}

function algebraOff(figures: readonly Figure[], render: readonly Figure[]): Record<string, number> {
  const off = comparedFigures.flatMap((name): [string, number][] => {
    const k = figureNames.indexOf(name);
    const [ours, sound] = [figures[k], render[k]];
    return ours === null || sound === null ? [] : [[name, ours - sound]];
  });
  return Object.fromEntries(off);
}
