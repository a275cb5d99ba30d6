import { escaped, unprintable } from "../text/words.js";

/** Line ends and tabs, and bold and dim as `paint.ts` makes them. Source of the codes: ECMA-48 (1991), 8.3.117. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: it is them that are looked for.
const ours = /\r\n|\n|\t|\x1b\[(?:1|2|22)m/;
const oursOrUnprintable = new RegExp(`${ours.source}|${unprintable.source}`, "gu");
const isOurs = new RegExp(`^(?:${ours.source})$`);

/**
 * Text with nothing in it that a terminal would obey but what is meant: names of files and words of the command line
 * may hold anything. What is taken out stands as \u001b, which in JSON means the same.
 */
export const harmless = (text: string): string =>
  text.replace(oursOrUnprintable, (found) => (isOurs.test(found) ? found : escaped(found)));

/** The answer, to standard output. Ends in one line end. */
export function print(text: string): void {
  process.stdout.write(harmless(text.endsWith("\n") ? text : `${text}\n`));
}

/** A remark beside the answer, to standard error. */
export function remark(text: string): void {
  process.stderr.write(harmless(`${text}\n`));
}
