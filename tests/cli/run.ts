import { type ChildProcess, spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { stepHangMs } from "../limits.js";

const main = fileURLToPath(new URL("../../dist/cli/main.js", import.meta.url));

export interface Run {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}
interface Options {
  readonly cwd?: string;
  readonly input?: string;
  readonly env?: Readonly<Record<string, string>>;
  /** For the shell that starts it, as "ulimit -f 100;". */
  readonly limits?: string;
  /** Called with each piece of standard error, and the process. */
  readonly onErr?: (text: string, child: ChildProcess) => void;
  readonly onStart?: (child: ChildProcess) => void;
}

/** Runs the built command in a process of its own; neither stream is a terminal. */
export function run(words: readonly string[], options: Options = {}): Promise<Run> {
  if (!existsSync(main)) throw new Error(`${main} is not built; run npm run build first`);
  const { NO_COLOR: _no, COLUMNS: _columns, FORCE_COLOR: _force, ...env } = process.env;
  const [program, ...before] = options.limits
    ? ["sh", "-c", `${options.limits} exec "$0" "$@"`, process.execPath]
    : [process.execPath];
  const child = spawn(program, [...before, main, ...words], {
    cwd: options.cwd ?? process.cwd(),
    env: { ...env, ...options.env },
    stdio: ["pipe", "pipe", "pipe"],
    timeout: stepHangMs,
    killSignal: "SIGKILL",
  });
  let out = "";
  let err = "";
  child.stdout.on("data", (data: Buffer) => {
    out += data.toString();
  });
  child.stderr.on("data", (data: Buffer) => {
    err += data.toString();
    options.onErr?.(data.toString(), child);
  });
  // A command that does not read its input closes it.
  child.stdin.on("error", () => {});
  child.stdin.end(options.input ?? "");
  options.onStart?.(child);
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (status, signal) =>
      resolve({ status: status ?? (signal === "SIGINT" ? 130 : 143), out, err }),
    );
  });
}
