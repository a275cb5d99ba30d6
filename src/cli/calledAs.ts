import { existsSync, realpathSync } from "node:fs";
import { delimiter, dirname, join, relative } from "node:path";
import { shellWord } from "../text/shellWord.js";

type Environment = Readonly<Record<string, string | undefined>>;

const isWindows = process.platform === "win32";
const word = (text: string) => shellWord(text, isWindows);

/** Whether npm runs the program by this package's own script: then it has moved to the checkout. */
const byOwnScript = ({ npm_package_name, npm_lifecycle_event }: Environment): boolean =>
  npm_package_name === "splitsum" && (npm_lifecycle_event === "splitsum" || npm_lifecycle_event === "demo");

/**
 * Goes back to where the person is, so that files are found as they are named there. The demo names its own.
 * Source: INIT_CWD, npm's documentation of `npm run`.
 */
export function goWhereCalled(environment: Environment = process.env): void {
  const { INIT_CWD, npm_lifecycle_event } = environment;
  if (byOwnScript(environment) && npm_lifecycle_event === "splitsum" && INIT_CWD) process.chdir(INIT_CWD);
}

/** A command as it can be typed where this one was: by npm, by name where it is on the path, else by node and file. */
export const commandLine = (...words: readonly string[]): string =>
  [calledAs(), ...words.map(word)].join(" ");

/** The same for messages that name a command by the program's own name. */
export const asCalled = (message: string): string =>
  message.replace(
    /\bsplitsum (?=(?:init|options|answer|compare|measure|levels|switches|sweep|merge|capture|prove|crosscheck|schema)\b)/g,
    () => `${calledAs()} `,
  );

export function calledAs(environment: Environment = process.env, script = process.argv[1] ?? ""): string {
  if (byOwnScript(environment)) {
    const home = dirname(environment.npm_package_json ?? "");
    const prefix = environment.INIT_CWD === home ? "" : ` --prefix ${word(home)}`;
    return `npm run -s${prefix} splitsum --`;
  }
  if (isOnPath(environment.PATH ?? "", script)) return "splitsum";
  if (/[/\\]node_modules[/\\]/.test(script)) return "npx splitsum";
  const near = relative(process.cwd(), script);
  return `node ${word(near.startsWith("..") ? script : near)}`;
}

/** Folders that npm puts on the path are there for its own run alone. */
function isOnPath(path: string, script: string): boolean {
  const folders = path.split(delimiter).filter((folder) => !/node_modules[/\\]\.bin[/\\]?$/.test(folder));
  const file = (folder: string) => join(folder, isWindows ? "splitsum.cmd" : "splitsum");
  return folders.some(
    (folder) =>
      existsSync(file(folder)) && (isWindows || realpathSync(file(folder)) === realpathSync(script)),
  );
}
