/**
 * A word as a shell takes it back: bare where that is safe, else in single quotes, a quote in it as '\''. For the shell
 * of Windows in double quotes.
 * Source: POSIX.1-2017, Shell Command Language, 2.2.2 (single quotes hold everything but themselves).
 */
export function shellWord(word: string, isWindows = false): string {
  if (/^[\w@%+=:,./-]+$/.test(word)) return word;
  if (isWindows) return /^[\w@%+=:,./\\-]+$/.test(word) ? word : `"${word}"`;
  return `'${word.replaceAll("'", "'\\''")}'`;
}

/** Makes a command that a person can copy from words: how the program is called, and each word as a shell takes it. */
export type CommandLine = (...words: readonly string[]) => string;
