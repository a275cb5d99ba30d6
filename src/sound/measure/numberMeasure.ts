import { type Given, isGiven, type Known, type Part } from "./facts.js";
import {
  type Explained,
  finite,
  foundOr,
  type Giver,
  isRendered,
  type Measure,
  type PartsFor,
  type Tables,
  type Wording,
} from "./measure.js";
import { silenceOf, takesRender } from "./why.js";

/** A measure that is one number. */
export interface NumberMeasure<Id extends string, From extends Giver>
  extends Measure<Id, From, number | null>,
    Wording {
  readonly shape: "number";
  readonly tables: Tables;
}

interface NumberSettings<Id extends string, From extends Giver, P extends Part>
  extends Explained,
    Wording,
    Pick<NumberMeasure<Id, From>, "id" | "from" | "tables"> {
  readonly needs: readonly P[];
  /** What is not finite counts as null. */
  readonly value: (facts: Given<P>) => number | null;
  /** Why there is none, of a sound that is not silent. */
  readonly why: (facts: Given<P>) => string;
  /** A number that sweeps have beside it: never lower, and known without a render. */
  readonly atMost?: Wording & { readonly id: string; readonly value: (facts: Known) => number | null };
}

export function numberMeasure<
  const Id extends string,
  const From extends keyof PartsFor,
  P extends PartsFor[From],
>({ value, why, atMost, ...settings }: NumberSettings<Id, From, P>): NumberMeasure<Id, From> {
  const { id, from, needs } = settings;
  const read = (facts: Known) => (isGiven(facts, needs) ? finite(value(facts)) : null);
  const reason = (facts: Known): string => {
    if (!isGiven(facts, needs)) return takesRender;
    return (from === "sound" ? silenceOf(facts) : null) ?? why(facts);
  };
  const own = { ...settings, isRendered: isRendered(needs), atMost: atMost?.id ?? null };
  return {
    ...settings,
    shape: "number",
    find: (facts) => foundOr(id, read(facts), () => reason(facts)),
    columns: [{ id, of: (measures) => measures[id] }],
    figures: atMost ? [own, { ...atMost, isRendered: false, atMost: null }] : [own],
    addFigures: (facts, to) => {
      to.push(read(facts));
      if (atMost) to.push(finite(atMost.value(facts)));
    },
  };
}
