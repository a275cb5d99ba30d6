import type { Command } from "commander";

/**
 * Options of a command line as they were written, those of the given names: for a hint at another command, which would
 * answer another question without them.
 */
export function repeatedWords(
  command: Command,
  names: readonly string[],
  words: readonly string[] = process.argv.slice(2),
): readonly string[] {
  const found: string[] = [];
  for (let n = 0; n < words.length; n++) {
    const flag = words[n].split("=", 1)[0];
    const option = command.options.find(({ long }) => long === flag);
    if (!option || !names.includes(option.attributeName())) continue;
    found.push(words[n]);
    if (option.required && flag === words[n] && n + 1 < words.length) found.push(words[++n]);
  }
  return found;
}
