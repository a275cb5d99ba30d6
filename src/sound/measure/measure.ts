import { type Facts, followsFromStems, type Known, type Part, type SoundPart } from "./facts.js";

/** A value, or why there is none, by field: `correlation`, `decay.t20Seconds`, `bands.levelDb`. */
export interface Found<Value> {
  readonly value: Value;
  readonly reasons: Reasons;
}
export type Reasons = Readonly<Record<string, string>>;

/** How a number is written: with so many decimals, with its sign, as a share of 1 in per cent, or in Hz or kHz. */
export type Format = { readonly fixed: number } | { readonly signed: number } | "percent" | "frequency";

/** A number in words. */
export interface Wording {
  /** In running text and on axes. */
  readonly name: string;
  /** On axes; "" for none. */
  readonly unit: string;
  /** Two lines, narrow; unless given, the column's id and the unit. */
  readonly heading?: readonly [string, string];
  readonly format: Format;
  /** Which way is better; null: a matter of taste. */
  readonly better: "more" | "less" | null;
}

/** Tables in which a number stands without being asked for; and where it is worded otherwise there. */
export interface Tables {
  /** Of a comparison, on terminals of at least so many columns. */
  readonly compare?: { readonly fromColumns: number };
  /** Of recordings. */
  readonly recordings?: Partial<Pick<Wording, "heading">>;
  /** Of the page. */
  readonly page?: Partial<Pick<Wording, "name" | "unit" | "format">>;
}

/** What a measure is, for people. */
export interface Explained {
  /** Definition: formula, unit and range. */
  readonly means: string;
  /** Standard, paper or closed form; `common practice, no source` where there is none. */
  readonly source: string;
}

export type Cell = string | number | boolean | null;

/** A column of tables for machines; `Values` are the measures that it is read from. */
export interface DataColumn<Values> {
  readonly id: string;
  readonly of: (measures: Values) => Cell;
}

/** A number that sweeps have of every setting. */
export interface FigureColumn extends Wording {
  readonly id: string;
  /** Takes the mix as sound. */
  readonly isRendered: boolean;
  /** Figure that is never lower, and takes no render. */
  readonly atMost: string | null;
}
export type Figure = number | null;

/** Who gives a measure: the sound by itself, the rig that made it, or another sound to compare with. */
export type Giver = "sound" | "rig" | "reference";

/** `Value`: what its giver finds; `Final`: what a report has in the end. */
export interface Measure<Id extends string, From extends Giver, Value, Final = Value> extends Explained {
  readonly id: Id;
  readonly from: From;
  /** One number; one object of several fields; or a list by bands. */
  readonly shape: "number" | "group" | "bands";
  readonly needs: readonly Part[];
  /** The value with its reasons. */
  readonly find: (facts: Known) => Found<Value>;
  readonly columns: readonly DataColumn<Readonly<Record<Id, Final>>>[];
  readonly figures: readonly FigureColumn[];
  /** Adds one entry a figure, null where the facts do not tell. Of mixes this is asked thousands of times a second. */
  readonly addFigures: (facts: Known, to: Figure[]) => void;
}

/** What a sound is compared with; null where there is none. */
export interface References<Sound> {
  /** Of the reference routing. */
  readonly reference: Sound | null;
  /** Of the dry take. */
  readonly dry: Sound | null;
}

/** Parts that a measure may need, by who gives it. */
export interface PartsFor {
  readonly sound: SoundPart;
  readonly rig: keyof Facts;
}

export const isRendered = (needs: readonly Part[]): boolean => needs.some((part) => !followsFromStems[part]);

/** A value, or the one reason why there is none. */
export const foundOr = <Value>(id: string, value: Value | null, why: () => string): Found<Value | null> => ({
  value,
  reasons: value === null ? { [id]: why() } : {},
});

export const finite = (value: number | null): number | null =>
  value !== null && Number.isFinite(value) ? value : null;
