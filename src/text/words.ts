/** The value found in a rig, as a message shows it: short, on one line, with nothing that a terminal would obey. */
export function found(value: unknown): string {
  if (value === undefined || value === null) return "empty";
  if (Array.isArray(value)) return "a list";
  if (typeof value === "object") return "a map";
  if (typeof value === "string") return quoted(value);
  if (Number.isNaN(value)) return "not a number (.nan)";
  if (value === Number.POSITIVE_INFINITY) return "infinite (.inf)";
  if (value === Number.NEGATIVE_INFINITY) return "infinite (-.inf)";
  return String(value);
}

/** Text in double quotes, at most `length` characters of it, controls and direction marks written as escapes. */
export function quoted(text: string, length = 60): string {
  const characters = Array.from(text);
  const short = characters.length > length ? `${characters.slice(0, length).join("")}...` : text;
  return JSON.stringify(short).replace(unprintable, escaped);
}

/** A character as JSON may write it: \u and four digits. */
export const escaped = (character: string): string =>
  `\\u${character.codePointAt(0)!.toString(16).padStart(4, "0")}`;

/**
 * Controls (C0, DEL, C1), line separators and the marks that turn the direction of writing: a name holding them could
 * steer a terminal or look like another name. Source: Unicode categories Cc, Zl, Zp; UAX #9 for the direction marks.
 */
export const unprintable = /[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069\u200e\u200f\ufeff]/gu;

/** `a tremolo`, `an overdrive`. */
export const aOrAn = (word: string): string => (/^[aeiou]/i.test(word) ? `an ${word}` : `a ${word}`);

export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** With a full stop behind it unless it has its own end. */
export const ended = (words: string): string => (/[.!?]$/.test(words) ? words : `${words}.`);

/** A remark as a sentence. */
export const sentence = (words: string): string => ended(capital(words));

/** `a, b and c`, or with another last word. */
export function andList(words: readonly string[], last = "and"): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} ${last} ${words.at(-1)}`;
}

const unitBySuffix: readonly (readonly [string, string])[] = [
  ["Seconds", "s"],
  ["Degrees", "degrees"],
  ["Cents", "cents"],
  ["Percent", "%"],
  ["Volts", "V"],
  ["Milliamps", "mA"],
  ["Hz", "Hz"],
  ["Ms", "ms"],
  ["Mm", "mm"],
  ["Db", "dB"],
  ["Dbfs", "dBFS"],
  ["Dbu", "dBu"],
  ["Ohms", "ohms"],
  ["ohms", "ohms"],
  ["henries", "H"],
  ["nanofarads", "nF"],
  ["picofarads", "pF"],
  ["picofaradsPerMetre", "pF/m"],
  ["Metres", "m"],
];

/** The unit that a key ends in: `delayMs` gives `ms`, `mix` gives nothing. */
export function unitOf(key: string): string {
  if (key === "volts") return "V";
  if (key === "milliamps") return "mA";
  if (key === "dbfs") return "dBFS";
  if (key === "dbu") return "dBu";
  return unitBySuffix.find(([suffix]) => key.endsWith(suffix))?.[1] ?? "";
}
