import type { BandDifferences, LevelledBand } from "./band.js";
import { type Compared, compareBands, differences } from "./bandDifferences.js";
import { type Given, isGiven, type Part, type SoundPart } from "./facts.js";
import type { Band } from "./isoBands.js";
import {
  type Explained,
  type Found,
  isRendered,
  type Measure,
  type Reasons,
  type References,
  type Wording,
} from "./measure.js";
import { takesRender } from "./why.js";

/** A measure of every band; a comparison adds differences of level. */
export interface BandsMeasure<Id extends string, Value>
  extends Measure<Id, "sound", readonly Value[], readonly (Value & BandDifferences)[]> {
  readonly shape: "bands";
  /** What its sound tells of each band. */
  readonly fields: readonly string[];
  readonly compare: (
    own: Compared<Id, Value>,
    others: References<Compared<Id, Value>>,
  ) => Found<readonly (Value & BandDifferences)[]>;
}

interface BandsSettings<Id extends string, P extends Part, Field extends string, Value> extends Explained {
  readonly id: Id;
  readonly needs: readonly P[];
  readonly bands: readonly Band[];
  /** What its columns begin with: `octave` makes `octave125HzLevelDb`. */
  readonly prefix: string;
  readonly value: (facts: Given<P>) => readonly Value[];
  /** Why single fields are null, by field, with the bands' centres. */
  readonly why: (values: readonly Value[], facts: Given<P>) => Reasons;
  readonly fields: readonly (Wording & { readonly field: Field })[];
}

export function bandsMeasure<
  const Id extends string,
  P extends SoundPart,
  Field extends string,
  Value extends LevelledBand & Readonly<Record<Field, number | null>>,
>({
  bands,
  prefix,
  value,
  why,
  fields,
  ...settings
}: BandsSettings<Id, P, Field, Value>): BandsMeasure<Id, Value> {
  const { id, needs } = settings;
  const names = fields.map(({ field }) => field);
  const columnId = (centreHz: number, field: string) =>
    `${prefix}${centreHz}Hz${field.charAt(0).toUpperCase()}${field.slice(1)}`;
  return {
    ...settings,
    from: "sound",
    shape: "bands",
    find: (facts) => {
      if (!isGiven(facts, needs)) return { value: [], reasons: { [id]: takesRender } };
      const found = value(facts);
      return { value: found, reasons: prefixed(id, why(found, facts)) };
    },
    fields: names,
    compare: compareBands(id),
    columns: bands.flatMap(({ centreHz }) =>
      [...names, ...differences].map((field) => ({
        id: columnId(centreHz, field),
        of: (measures) => measures[id].find((band) => band.centreHz === centreHz)?.[field] ?? null,
      })),
    ),
    figures: bands.flatMap(({ centreHz }) =>
      fields.map(({ field, name, ...wording }) => ({
        ...wording,
        id: columnId(centreHz, field),
        name: `${prefix} at ${centreHz} Hz, ${name}`,
        isRendered: isRendered(needs),
        atMost: null,
      })),
    ),
    addFigures: (facts, to) => {
      const found = isGiven(facts, needs) ? value(facts) : null;
      for (let k = 0; k < bands.length; k++) for (const field of names) to.push(found?.[k][field] ?? null);
    },
  };
}

const prefixed = (id: string, reasons: Reasons): Reasons =>
  Object.fromEntries(Object.entries(reasons).map(([field, why]) => [`${id}.${field}`, why]));
