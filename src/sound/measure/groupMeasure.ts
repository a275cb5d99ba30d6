import { type Given, isGiven, type Part } from "./facts.js";
import {
  type Cell,
  type Explained,
  type Found,
  foundOr,
  type Giver,
  isRendered,
  type Measure,
  type PartsFor,
  type Wording,
} from "./measure.js";
import { silenceOf, takesRender } from "./why.js";

/** `Core`: what its fields are read from; `Value` may hold more, as curves to be drawn. */
interface GroupSettings<Id extends string, From extends keyof PartsFor, P extends Part, Core, Value>
  extends Explained {
  readonly id: Id;
  readonly from: From;
  readonly needs: readonly P[];
  /** In short, for sweeps. */
  readonly value: (facts: Given<P>) => Core | null;
  /** In full. */
  readonly find: (facts: Given<P>) => Found<Value | null>;
  /** By the id of the column; what is no number is in no sweep. */
  readonly fields: Readonly<Record<string, NumberField<Core> | WordField<Core>>>;
}
interface NumberField<Core> extends Wording {
  readonly of: (value: Core) => number | null;
}
interface WordField<Core> {
  readonly of: (value: Core) => Cell;
}

export interface GroupMeasure<Id extends string, From extends Giver, Value>
  extends Measure<Id, From, Value | null> {
  readonly shape: "group";
}

/** A measure of several fields that are there, or missing, together. */
export function groupMeasure<
  const Id extends string,
  const From extends keyof PartsFor,
  P extends PartsFor[From],
  Core,
  Value extends Core,
>({
  value,
  find,
  fields,
  ...settings
}: GroupSettings<Id, From, P, Core, Value>): GroupMeasure<Id, From, Value> {
  const { id, from, needs } = settings;
  const columns = Object.entries(fields);
  const numbers = columns.flatMap(([column, field]) => ("format" in field ? [{ column, field }] : []));
  return {
    ...settings,
    shape: "group",
    find: (facts) => {
      if (!isGiven(facts, needs)) return foundOr<Value>(id, null, () => takesRender);
      const silence = from === "sound" ? silenceOf(facts) : null;
      return silence === null ? find(facts) : foundOr<Value>(id, null, () => silence);
    },
    columns: columns.map(([column, { of }]) => ({
      id: column,
      of: (measures) => {
        const found = measures[id];
        return found === null ? null : of(found);
      },
    })),
    figures: numbers.map(({ column, field: { of: _of, ...wording } }) => ({
      ...wording,
      id: column,
      isRendered: isRendered(needs),
      atMost: null,
    })),
    addFigures: (facts, to) => {
      const found = isGiven(facts, needs) ? value(facts) : null;
      for (const { field } of numbers) to.push(found === null ? null : field.of(found));
    },
  };
}
