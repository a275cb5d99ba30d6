import { InvalidArgumentError } from "commander";
import { mostMixedPlans } from "../rig/model/bounds.js";
import { mostReelSeconds, type ReelSpan } from "../work/compare/reel.js";

/** A number option with bounds: `numberWord(0, 600, "seconds")`. Its message follows the option's name. */
export function numberWord(min: number, max: number, unit: string): (text: string) => number {
  return (text) => {
    const value = text.trim() === "" ? Number.NaN : Number(text);
    if (value >= min && value <= max) return value;
    throw new InvalidArgumentError(`Write a number of ${unit} from ${min} to ${max}.`);
  };
}

/** A whole number with bounds. */
export function wholeWord(min: number, max: number): (text: string) => number {
  return (text) => {
    const value = text.trim() === "" ? Number.NaN : Number(text);
    if (Number.isInteger(value) && value >= min && value <= max) return value;
    throw new InvalidArgumentError(`Write a whole number from ${min} to ${max}.`);
  };
}

/** An option that may be given several times. */
export const oneMore = (text: string, before: readonly string[] = []): readonly string[] => [...before, text];

/** `name=file.wav`, one more of several: what it is called, and where it is. */
export function namedFileWord(text: string, before: readonly { name: string; file: string }[] = []) {
  const at = text.indexOf("=");
  const [name, file] = [text.slice(0, at).trim(), text.slice(at + 1).trim()];
  if (at > 0 && name !== "" && file !== "") return [...before, { name, file }];
  throw new InvalidArgumentError("Write a name, an equals sign and a file, as in real=rig.wav.");
}

/** `8..20`: seconds of the take. */
export function spanWord(text: string): ReelSpan {
  const [from, to, ...more] = text
    .split("..")
    .map((part) => (part.trim() === "" ? Number.NaN : Number(part)));
  if (more.length === 0 && from >= 0 && to > from && to - from <= mostReelSeconds)
    return { fromSeconds: from, toSeconds: to };
  throw new InvalidArgumentError(
    `Write from where to where in seconds, at most ${mostReelSeconds} s, as in 8..20.`,
  );
}

/** `a,b,c` as a list; empty entries are refused. */
export function listWord(text: string): readonly string[] {
  const words = text.split(",").map((word) => word.trim());
  if (words.every((word) => word !== "")) return [...new Set(words)];
  throw new InvalidArgumentError("Write words with commas between them, as in parallel,summed.");
}

/** `all`, `same` or a number of plans that mix places. */
export function plansWord(text: string): number {
  if (text === "all") return mostMixedPlans;
  if (text === "same") return 0;
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (Number.isInteger(value) && value >= 0 && value <= mostMixedPlans) return value;
  throw new InvalidArgumentError(
    `Write all, same (all units in one place), or how many mixed plans, from 0 to ${mostMixedPlans}.`,
  );
}
