import { differences } from "./bandDifferences.js";
import type { Known } from "./facts.js";
import type { Found, Reasons, References } from "./measure.js";
import {
  type AnyMeasure,
  type Measures,
  measures,
  ofRig,
  ofSound,
  type RigMeasures,
  type SoundMeasures,
  type Values,
} from "./measures.js";

/** The measures of a sound by itself. */
export const soundMeasuresOf = (facts: Known): SoundMeasures => allFound(ofSound, facts);

/** What the rig adds to them, from the facts of its sound and its own. */
export const rigMeasuresOf = (facts: Known): RigMeasures => allFound(ofRig, facts);

function allFound<M extends AnyMeasure>(list: readonly M[], facts: Known) {
  const found = list.map((measure) => [measure.id, measure.find(facts)] as const);
  const values = Object.fromEntries(found.map(([id, { value }]) => [id, value]));
  if (!isFilled(values, list)) throw new Error("a measure was left out");
  const reasons = Object.fromEntries(found.flatMap(([, each]) => Object.entries(each.reasons)));
  return { ...values, reasons };
}

const isFilled = <M extends AnyMeasure>(values: object, list: readonly M[]): values is Values<M> =>
  list.every(({ id }) => id in values);

/**
 * Both, compared: as a report has them.
 * @param rig  null where no wiring is known, as of a recording
 */
export function measuresOf(
  sound: SoundMeasures,
  rig: RigMeasures | null,
  others: References<SoundMeasures>,
): Measures {
  const found = inReport.map((measure): readonly [id: string, Found<unknown>] => {
    if ("compare" in measure) return [measure.id, measure.compare(sound, others)];
    const value = measure.from === "rig" ? (rig?.[measure.id] ?? null) : sound[measure.id];
    return [measure.id, { value, reasons: {} }];
  });
  const values = Object.fromEntries(found.map(([id, { value }]) => [id, value]));
  if (!isCompared(values)) throw new Error("a measure was left out");
  const compared = Object.fromEntries(found.flatMap(([, { reasons }]) => Object.entries(reasons)));
  const told = { ...sound.reasons, ...compared, ...whatIsMissing(sound, rig, others) };
  return { ...values, reasons: inOrder(told, rig) };
}

/** What was found of a sound before it was compared, from what a report has of it. */
export function soundOf(measures: Measures): SoundMeasures {
  const own = Object.entries(measures.reasons).filter(([field]) => {
    const [id, part] = field.split(".");
    return ofSound.some((measure) => measure.id === id) && !differences.some((each) => each === part);
  });
  return { ...measures, reasons: Object.fromEntries(own) };
}

const inReport = [...measures.filter(({ from }) => from !== "rig"), ...ofRig];

const isCompared = (values: object): values is Omit<Measures, "reasons"> =>
  inReport.every(({ id }) => id in values);

const needsWiring = "needs a wiring; only a comparison of routings knows one";

/** Why what takes a wiring or a reference is not there, where there is none. */
function whatIsMissing(
  { sideShare, reasons }: SoundMeasures,
  rig: RigMeasures | null,
  { reference }: References<SoundMeasures>,
): Reasons {
  const silence = sideShare === null ? reasons.sideShare : null;
  const unwired = rig === null ? ofRig.map(({ id }) => [id, silence ?? needsWiring]) : [];
  const alone = inReport.filter(({ from }) => from === "reference" && silence !== null && reference === null);
  return Object.fromEntries([...unwired, ...alone.map(({ id }) => [id, silence])]);
}

/** Of whole fields, of differences of bands, of bands field by field; what the rig tells comes last. */
function inOrder(told: Reasons, rig: RigMeasures | null): Reasons {
  const bands = measures.filter((measure) => measure.shape === "bands");
  const ofBands = [
    ...bands.flatMap(({ id }) => differences.map((field) => `${id}.${field}`)),
    ...[...new Set(bands.flatMap(({ fields }) => fields))].flatMap((field) =>
      bands.map(({ id }) => `${id}.${field}`),
    ),
  ];
  const ofWhole = inReport
    .filter(({ shape }) => shape !== "bands")
    .flatMap(({ id }) => Object.keys(told).filter((field) => field.split(".")[0] === id));
  const pairs = [...ofWhole, ...ofBands].flatMap((field) => (field in told ? [[field, told[field]]] : []));
  return { ...Object.fromEntries(pairs), ...rig?.reasons };
}
