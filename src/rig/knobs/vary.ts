import type { NumberSetting, Setting, SettingValue } from "../../sound/dsp/kernel.js";
import { didYouMean } from "../../text/nearest.js";
import { found, quoted, unitOf } from "../../text/words.js";
import type { Axis } from "../model/axis.js";
import type { Knob } from "./knobs.js";

/** The most values that one knob may take. */
const mostValues = 100_000;

/**
 * Values of one knob, from words: `FROM..TO/STEPS`, even steps with both ends in them, by ratios where the setting's
 * table says so or `log` stands behind (`lin` for equal steps); or a list, as `a, b, c` or as a list of the rig file.
 *
 * @param words  text, a plain value or a list of them
 * @returns the axis, or what is wrong with the words, in one sentence
 */
export function readAxis(knobs: readonly Knob[], path: string, words: unknown): Axis | string {
  const knob = knobs.find((candidate) => candidate.path === path);
  if (!knob) return unknownKnob(path, knobs);
  const { setting } = knob;
  const range = typeof words === "string" && "min" in setting ? rangePattern.exec(words.trim()) : null;
  if (range && "min" in setting) return rangeAxis(path, setting, range);
  const list = Array.isArray(words) ? words : typeof words === "string" ? splitList(words) : [words];
  if (list.length > mostValues)
    return `${quoted(path)} takes ${list.length} values; at most ${mostValues}. Take some out.`;
  const values = new Set<SettingValue>();
  for (const word of list) {
    const value = readValue(setting, word);
    if (value === null) return `${quoted(path)} cannot be ${found(word)}; ${allowed(path, setting)}.`;
    if (values.has(value)) return `${quoted(path)} takes ${found(word)} twice. Write each value once.`;
    values.add(value);
  }
  if (values.size === 0) return `${quoted(path)} has no values; ${allowed(path, setting)}.`;
  return { path, values: [...values] };
}

// Each part can be matched in one way only: a pattern that can go back over digits takes time by the square of them.
const number = String.raw`[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[-+]?\d+)?`;
const rangePattern = new RegExp(`^(${number})\\s*\\.\\.\\s*(${number})\\s*/\\s*(\\d+)\\s*(lin|log)?$`, "i");

const splitList = (words: string): string[] => words.split(",").map((word) => word.trim());

function rangeAxis(
  path: string,
  setting: NumberSetting,
  [, fromText, toText, stepsText, scale]: RegExpExecArray,
) {
  const [from, to, steps] = [fromText, toText, stepsText].map(Number);
  for (const end of [from, to]) {
    if (end < setting.min || end > setting.max)
      return `${quoted(path)} cannot be ${end}; ${allowed(path, setting)}.`;
  }
  if (steps < 2 || steps > mostValues)
    return `${quoted(path)} has ${steps} steps; a range has 2 to ${mostValues}. For one value write it alone.`;
  if (from === to) return `${quoted(path)} goes from ${from} to itself. Write the value alone.`;
  const byRatio = scale ? scale.toLowerCase() === "log" : (setting.log ?? false);
  if (byRatio && (from <= 0 || to <= 0))
    return `${quoted(path)} cannot go by ratios from ${from} to ${to}: both ends must be over 0. Write lin behind it.`;
  const at = (k: number) => {
    if (k === 0) return from;
    if (k === steps - 1) return to;
    const share = k / (steps - 1);
    return rounded(byRatio ? from * (to / from) ** share : from + (to - from) * share);
  };
  const values = Array.from({ length: steps }, (_, k) => (setting.whole ? Math.round(at(k)) : at(k)));
  return { path, values: [...new Set(values)] };
}

/** To nine digits: what a person would write, and the same on every machine. */
const rounded = (value: number): number => Number(value.toPrecision(9));

function readValue(setting: Setting, word: unknown): SettingValue | null {
  if ("min" in setting) {
    const value = typeof word === "string" && word.trim() !== "" ? Number(word) : word;
    if (typeof value !== "number" || !(value >= setting.min && value <= setting.max)) return null;
    return setting.whole && !Number.isInteger(value) ? null : value;
  }
  if ("choices" in setting) return typeof word === "string" && setting.choices.includes(word) ? word : null;
  if ("file" in setting) return typeof word === "string" && word !== "" ? word : null;
  if (typeof word === "boolean") return word;
  return word === "true" ? true : word === "false" ? false : null;
}

function allowed(path: string, setting: Setting): string {
  const unit = unitOf(path.slice(path.lastIndexOf(".") + 1));
  if ("min" in setting) {
    const kind = setting.whole ? "it is a whole number" : "it goes";
    return `${kind} from ${setting.min} to ${setting.max}${unit && ` ${unit}`}, as a range FROM..TO/STEPS or a list`;
  }
  if ("choices" in setting) return `it is one of ${setting.choices.join(", ")}`;
  return "file" in setting ? "it is the name of a file" : "it is true or false";
}

function unknownKnob(path: string, knobs: readonly Knob[]): string {
  const paths = knobs.map((knob) => knob.path);
  const owners = [...new Set(paths.map(ownerOf))];
  const owner = owners.find((name) => path.startsWith(`${name}.`));
  if (owner === undefined) {
    const near = didYouMean(ownerOf(path), owners) || didYouMean(path, paths);
    return `${quoted(path)} is nothing that can be set here; write OWNER.SETTING, the owner one of ${few(owners)}.${near}`;
  }
  const keys = paths
    .filter((known) => ownerOf(known) === owner)
    .map((known) => known.slice(owner.length + 1));
  const near = didYouMean(path.slice(owner.length + 1), keys);
  return `${quoted(path)} is nothing that can be set here; ${quoted(owner)} has ${few(keys)}.${near}`;
}

const ownerOf = (path: string): string => path.slice(0, path.lastIndexOf("."));
const mostListed = 24;
const few = (words: readonly string[]): string =>
  words.slice(0, mostListed).join(", ") + (words.length > mostListed ? ", ..." : "");
