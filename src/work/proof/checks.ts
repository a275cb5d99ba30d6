import type { Bench } from "./bench.js";
import type { FaultFamily, FaultKind } from "./faults.js";
import type { Judgement } from "./judgeBoard.js";
import type { Check, CheckKind } from "./proofReport.js";
import { refined } from "./refine.js";
import type { Verdict } from "./verdict.js";

/** A side whose tone stands no further over its noise than this carries none. */
const deadDb = 10;

/** How near to the plan a figure is looked for, how finely, and beyond what interval it is not told. */
const figures: Partial<Record<FaultKind, { reach: number; least: number; most: number }>> = {
  level: { reach: 2.5, least: 0.1, most: 3 },
  pan: { reach: 0.25, least: 0.02, most: 0.4 },
  latency: { reach: 0.25, least: 0.02, most: 0.4 },
};

/** Kinds of fault that are one line of the sheet each. */
const lines: readonly (readonly [CheckKind, readonly FaultKind[]])[] = [
  ["sides-swapped", ["sides-swapped"]],
  ["cables", ["cable-elsewhere", "cable-missing"]],
  ["polarity", ["polarity"]],
  ["mono-output", ["mono-output"]],
  ["not-fully-wet", ["not-fully-wet"]],
  ["no-dry-sound", ["no-dry-sound"]],
  ["stays-off", ["stays-off"]],
  ["passive-split", ["passive-split"]],
];

/** Every line of the sheet. @param noiseUnderDb  so far under the tone hum and hiss must stay */
export function checksOf(
  families: readonly FaultFamily[],
  bench: Bench,
  judgement: Judgement,
  verdict: Verdict,
  noiseUnderDb: number,
): readonly Check[] {
  return [
    ...outputs(bench),
    ...lines.flatMap(([kind, of]) => whether(kind, of, families, verdict)),
    ...families.flatMap((family) => figure(family, bench, judgement, verdict)),
    ...noises(bench, noiseUnderDb),
  ];
}

const plain = { wanted: null, found: null, within: null } as const;
const sideNames = (sides: 1 | 2): readonly string[] =>
  sides === 1 ? ["output"] : ["left output", "right output"];

/** Each output carries the tone in some recording at least. */
function outputs({ sides, recordings }: Bench): readonly Check[] {
  return sideNames(sides).map((where, n) => {
    const over = recordings.map(({ measured }) => {
      const { hissDbfs, humDbfs } = measured.silence[n];
      return measured.levelDbfs[n] - Math.max(hissDbfs ?? -200, humDbfs ?? -200);
    });
    return { ...plain, kind: "output", where, passes: Math.max(...over) > deadDb };
  });
}

function whether(
  kind: CheckKind,
  of: readonly FaultKind[],
  families: readonly FaultFamily[],
  { built, faults, notTold }: Verdict,
): readonly Check[] {
  if (!families.some((family) => of.includes(family.kind))) return [];
  const among = (list: Verdict["faults"]) => list.filter(({ family }) => family && of.includes(family.kind));
  const found = among(faults);
  const open = among(notTold);
  const where = [...found, ...open].map(({ family }) => family?.where ?? "").join("; ");
  const passes = built === "not-known" || open.length > 0 ? null : found.length === 0;
  return [{ ...plain, kind, where, passes }];
}

/** A figure of the plan as it was found; where something else is at fault, none of it is known. */
function figure(
  family: FaultFamily,
  bench: Bench,
  { candidates, overdispersion }: Judgement,
  { built, faults, notTold }: Verdict,
): readonly Check[] {
  const { kind, where, wanted } = family;
  const bounds = figures[kind];
  if (!bounds || wanted === null) return [];
  const own = candidates.find(
    (candidate) => candidate.family === family || candidate.family?.id === family.id,
  );
  const isAtFault = faults.some((fault) => fault.family?.id === family.id);
  const isKnown = built === "as-drawn" ? true : built === "faulty" && isAtFault;
  const isOpen = notTold.some(
    (each) =>
      each.family?.id === family.id && Math.abs((each.amount ?? wanted) - wanted) > 2 * family.tolerance,
  );
  const near = isAtFault ? (own?.amount ?? wanted) : wanted;
  const fitted = isKnown && !isOpen ? refined(family, near, { ...bounds, overdispersion }, bench) : null;
  return [
    {
      kind,
      where,
      wanted,
      found: fitted?.amount ?? null,
      within: fitted?.within ?? null,
      passes: isAtFault
        ? false
        : fitted === null
          ? null
          : Math.abs(fitted.amount - wanted) <= family.tolerance,
    },
  ];
}

function noises({ sides, recordings }: Bench, noiseUnderDb: number): readonly Check[] {
  const [{ measured }] = recordings;
  return sideNames(sides).flatMap((where, n) =>
    (["hum", "hiss"] as const).map((kind): Check => {
      const { humDbfs, hissDbfs } = measured.silence[n];
      const dbfs = kind === "hum" ? humDbfs : hissDbfs;
      const found = dbfs === null ? null : dbfs - Math.max(...measured.levelDbfs);
      return {
        kind,
        where,
        wanted: -noiseUnderDb,
        found,
        within: null,
        passes: found === null || found <= -noiseUnderDb,
      };
    }),
  );
}
