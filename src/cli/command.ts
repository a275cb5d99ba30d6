import type { Command } from "commander";
import type { Paint } from "../words/table.js";
import { remark } from "./output.js";
import { paintFor } from "./paint.js";
import { type Progress, progressBar } from "./progress.js";
import { type Terminal, terminalOf } from "./terminal.js";

/** How a command shows things: told to it once, from its words, its streams and the environment. */
export interface Show {
  /** Of standard output. */
  readonly terminal: Terminal;
  readonly paint: Paint;
  /** A remark on standard error; nothing with `--quiet`. */
  readonly note: (text: string) => void;
  readonly progress: (what: string) => Progress;
}

/** Adds a command with the words that every command has; `example` ends its help. */
export function newCommand(program: Command, name: string, does: string, example: string): Command {
  return program
    .command(name)
    .description(does)
    .helpOption("-h, --help", "print this help")
    .option("-q, --quiet", "no progress and no remarks on standard error")
    .option("--no-color", "no colours, also when the terminal has them")
    .addHelpText("after", `\nExample:\n${example.replace(/^/gm, "  ")}`);
}

export function showFor(command: Command): Show {
  const { quiet, color } = command.optsWithGlobals<{ quiet?: boolean; color?: boolean }>();
  // Commander takes the last of two defaults: either place of --no-color counts.
  const colourWanted = color !== false && command.parent?.opts<{ color?: boolean }>().color !== false;
  const terminal = terminalOf(process.stdout, process.env, colourWanted);
  const { live } = terminalOf(process.stderr, process.env, colourWanted);
  return {
    terminal,
    paint: paintFor(terminal.colour),
    note: quiet ? () => {} : remark,
    progress: (what) => progressBar(live && !quiet, what),
  };
}
