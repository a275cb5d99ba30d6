import { InvalidArgumentError } from "commander";

/** A number option with bounds: `numberWord(0, 600, "seconds")`. Its message follows the option's name. */
export function numberWord(min: number, max: number, unit: string): (text: string) => number {
  return (text) => {
    const value = text.trim() === "" ? Number.NaN : Number(text);
    if (value >= min && value <= max) return value;
    throw new InvalidArgumentError(`Write a number of ${unit} from ${min} to ${max}.`);
  };
}

/** `a,b,c` as a list; empty entries are refused. */
export function listWord(text: string): readonly string[] {
  const words = text.split(",").map((word) => word.trim());
  if (words.every((word) => word !== "")) return [...new Set(words)];
  throw new InvalidArgumentError("Write words with commas between them, as in parallel,summed.");
}
