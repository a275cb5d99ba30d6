import { didYouMean } from "../../text/nearest.js";
import { andList, found, quoted, unitOf, unprintable } from "../../text/words.js";
import { z } from "./zod.js";

/** Where a field stands, for messages: `{ owner: "a tremolo", key: "depth" }` is "a tremolo's depth". */
export interface FieldName {
  readonly owner: string;
  readonly key: string;
}
export interface Bounds {
  readonly min: number;
  readonly max: number;
  readonly whole?: boolean;
}

/** A number within bounds; the message tells the value, the whole range and the nearest value that is allowed. */
export function numberField(name: FieldName, bounds: Bounds): z.ZodNumber {
  const error = ({ input }: { input?: unknown }) => numberMessage(name, bounds, input);
  const base = z.number({ error });
  return (bounds.whole ? base.int({ error }) : base).min(bounds.min, { error }).max(bounds.max, { error });
}

/** One of a few words. */
export function choiceField<T extends string>(name: FieldName, choices: readonly T[]) {
  const error = ({ input }: { input?: unknown }) => choiceMessage(name, choices, input);
  return z.enum(choices, { error });
}

export function switchField(name: FieldName): z.ZodBoolean {
  return z.boolean({
    error: ({ input }) => {
      const said = typeof input === "string" ? switchWords.get(input.toLowerCase()) : undefined;
      return message(name, input, "is true or false", said === undefined ? "" : ` Write ${said}.`);
    },
  });
}

/** Text of 1 to `length` characters with nothing in it that a terminal would obey. */
export function textField(name: FieldName, length: number): z.ZodString {
  const allowed = `is text of 1 to ${length} characters`;
  const error = ({ input }: { input?: unknown }) =>
    message(name, input, allowed, textHint(name, input, length));
  return z
    .string({ error })
    .min(1, { error })
    .max(length, { error })
    .refine((text) => text.search(unprintable) < 0, {
      error: ({ input }) =>
        message(name, input, "has no control characters", " Take the \\u characters out."),
    });
}

/** An id: small letters, digits and hyphens. It names files and stands in cables. */
export const idPattern = /^[a-z0-9](?:[a-z0-9-]{0,38}[a-z0-9])?$/;

/**
 * A map with the keys of `shape` and no others. An unknown key gives an issue at its parent with a line of message for
 * each of its `keys`; `faultsOf` takes the lines apart again and puts each at its own key.
 */
export function mapField<S extends z.core.$ZodLooseShape>(name: FieldName, shape: S) {
  const known = Object.keys(shape);
  return z.strictObject(shape, {
    error: (issue) => {
      if (issue.code !== "unrecognized_keys")
        return message(name, issue.input, `is a map of ${andList(known)}`);
      return issue.keys
        .map((key) => unknownKeyMessage(key, `the ${name.key} of ${name.owner} are`, known))
        .join("\n");
    },
  });
}

/** Like `mapField`, for a thing that has a name of its own: "a pedal", "a splitter". */
export function thingField<S extends z.core.$ZodLooseShape>(owner: string, shape: S) {
  const known = Object.keys(shape);
  return z.strictObject(shape, {
    error: (issue) => {
      if (issue.code !== "unrecognized_keys") {
        return `${owner} is a map of ${andList(known)}; this is ${found(issue.input)}.`;
      }
      return issue.keys.map((key) => unknownKeyMessage(key, `${owner} has`, known)).join("\n");
    },
  });
}

export function listField<T extends z.ZodType>(name: FieldName, item: T, hint = "") {
  return z.array(item, { error: ({ input }) => message(name, input, "is a list", hint) });
}

function unknownKeyMessage(key: string, has: string, known: readonly string[]): string {
  // { mix: 0,3 } is two entries: taken out, the 3 would leave a mix of 0.
  const rest = /^\d+$/.test(key) ? " Decimals take a point, as in 0.3: a comma begins a new entry." : "";
  const hint = rest || didYouMean(key, known) || " Take it out.";
  return `${quoted(key)} is not known here; ${has} ${known.join(", ") || "none"}.${hint}`;
}

export function choiceMessage(name: FieldName, choices: readonly string[], input: unknown): string {
  const hint = typeof input === "string" ? didYouMean(input, choices) : "";
  const allowed = choices.length === 1 ? `is ${choices[0]}` : `is one of ${choices.join(", ")}`;
  return message(name, input, allowed, hint);
}

/** `depth is 1.4; a tremolo's depth goes from 0 to 1. Write 1 for the most.` */
export function message(name: FieldName, input: unknown, allowed: string, hint = ""): string {
  const is = input === undefined ? "is missing" : `is ${found(input)}`;
  return `${name.key} ${is}; ${name.owner}'s ${name.key} ${allowed}.${hint}`;
}

function numberMessage(name: FieldName, { min, max, whole }: Bounds, input: unknown): string {
  const unit = unitOf(name.key);
  const range = `from ${min} to ${max}${unit && ` ${unit}`}`;
  const kind = whole ? "is a whole number" : typeof input === "number" ? "goes" : "is a number";
  const hint = numberHint({ min, max, whole: whole ?? false }, unit, input);
  return message(name, input, `${kind} ${range}`, hint);
}

/** Units that a number may have been meant in, and what one of them is in the unit of the field. */
const meantUnits: Readonly<Record<string, readonly (readonly [unit: string, factor: number])[]>> = {
  "": [["%", 0.01]],
  Hz: [["kHz", 1000]],
  ms: [["s", 1000]],
  s: [["ms", 0.001]],
  ohms: [["kilohms", 1000]],
  H: [["mH", 0.001]],
};

/** `0.3 if 30 % is meant, ` for a number that is right in another unit; nothing for others. */
function otherUnitHint({ min, max }: Bounds, unit: string, input: number): string {
  for (const [meant, factor] of meantUnits[unit] ?? []) {
    const value = Number((input * factor).toPrecision(12));
    const isFraction = unit === "" && !(max <= 1 && input >= 2);
    if (!isFraction && value >= min && value <= max) return `${value} if ${input} ${meant} is meant, `;
  }
  return "";
}

function numberHint({ min, max, whole }: Required<Bounds>, unit: string, input: unknown): string {
  if (typeof input === "string") {
    const number = Number.parseFloat(input.trim().replace(",", "."));
    if (!(number >= min && number <= max)) return "";
    return ` Write ${whole ? Math.round(number) : number}, without quotes and unit.`;
  }
  if (typeof input !== "number" || Number.isNaN(input)) return "";
  if (input > max) return ` Write ${otherUnitHint({ min, max }, unit, input)}${max} for the most.`;
  if (input < min) return ` Write ${otherUnitHint({ min, max }, unit, input)}${min} for the least.`;
  return whole ? ` Write ${Math.floor(input)} or ${Math.ceil(input)}.` : "";
}

function textHint(name: FieldName, input: unknown, length: number): string {
  if (typeof input === "number" || typeof input === "boolean")
    return ` Put it in quotes: ${name.key}: "${input}".`;
  if (typeof input !== "string" || input === "") return "";
  return input.length > length ? ` It has ${input.length}; shorten it.` : "";
}

const switchWords = new Map(
  Object.entries({ yes: true, on: true, y: true, no: false, off: false, n: false }),
);
