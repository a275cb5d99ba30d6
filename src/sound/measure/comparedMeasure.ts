import { type Explained, type Found, finite, foundOr, type References, type Wording } from "./measure.js";
import type { NumberMeasure } from "./numberMeasure.js";

type Sound<By extends string> = Readonly<Record<By, number | null>>;

/** A number that compares a sound with the reference, by measures of both. */
export interface ComparedMeasure<Id extends string, By extends string>
  extends NumberMeasure<Id, "reference"> {
  readonly value: (own: Sound<By>, reference: Sound<By>) => number | null;
  readonly compare: (own: Sound<By>, others: References<Sound<By>>) => Found<number | null>;
}

interface ComparedSettings<Id extends string, By extends string>
  extends Explained,
    Wording,
    Pick<ComparedMeasure<Id, By>, "id" | "value" | "tables"> {
  /** The measures that it is worked out from. */
  readonly by: readonly By[];
  /** Why there is none although there is a reference. */
  readonly why: string;
}

export function comparedMeasure<const Id extends string, const By extends string>({
  by: _by,
  why,
  ...settings
}: ComparedSettings<Id, By>): ComparedMeasure<Id, By> {
  const { id, value } = settings;
  return {
    ...settings,
    from: "reference",
    shape: "number",
    needs: [],
    find: () => foundOr(id, null, () => needsReference),
    compare: (own, { reference }) =>
      foundOr(id, reference && finite(value(own, reference)), () =>
        reference === null ? needsReference : why,
      ),
    columns: [{ id, of: (measures) => measures[id] }],
    figures: [],
    addFigures: () => {},
  };
}

export const needsReference = "needs a reference to compare with";
