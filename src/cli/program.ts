import { Command, CommanderError } from "commander";
import { programVersion } from "../node/files/programVersion.js";
import { addAnswer } from "./commands/answer.js";
import { addBench } from "./commands/bench.js";
import { addCapture } from "./commands/capture.js";
import { addCompare } from "./commands/compare.js";
import { addCrosscheck } from "./commands/crosscheck.js";
import { addInit } from "./commands/init.js";
import { addLevels } from "./commands/levels.js";
import { addMeasure } from "./commands/measure.js";
import { addMerge } from "./commands/merge.js";
import { addOptions } from "./commands/options.js";
import { addProve } from "./commands/prove.js";
import { addSchema } from "./commands/schema.js";
import { addSweep } from "./commands/sweep.js";
import { addSwitches } from "./commands/switches.js";
import { failed } from "./failed.js";
import { harmless } from "./output.js";

/** Words in, exit status out: 0 done, 1 the work failed, 2 wrong words or a wrong file, 130 stopped by Ctrl-C. */
export async function runProgram(words: readonly string[]): Promise<number> {
  const program = new Command("splitsum")
    // Before any command is added: commands take it over from here.
    .exitOverride()
    .configureOutput({
      outputError: (text, write) => write(harmless(text.replace(/^error: /, "splitsum: "))),
    })
    .showHelpAfterError("(--help tells all words, with an example)")
    .description("Hear, measure and build every way to wire a mono pedal after a stereo one.")
    .version(programVersion(), "-V, --version", "print the version")
    .helpOption("-h, --help", "print this help")
    .option("--no-color", "no colours, also when the terminal has them")
    .addHelpText("after", example);
  addInit(program);
  addBench(program);
  addOptions(program);
  addCompare(program);
  addAnswer(program);
  addSweep(program);
  addMerge(program);
  addMeasure(program);
  addCapture(program);
  addSwitches(program);
  addLevels(program);
  addProve(program);
  addCrosscheck(program);
  addSchema(program);
  if (words.length === 0) {
    program.outputHelp();
    return 0;
  }
  try {
    await program.parseAsync(isUnknown(words, program) ? words.filter(isNoHelp) : words, { from: "user" });
    return 0;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    return failed(error);
  }
}

/** Whether the words name a command that there is not. Asked for help as well, the parser would overlook it. */
function isUnknown(words: readonly string[], program: Command): boolean {
  let command = program;
  for (const word of words.filter((each) => !each.startsWith("-") && each !== "help")) {
    if (command.commands.length === 0) return false;
    const named = command.commands.find((each) => each.name() === word);
    if (!named) return true;
    command = named;
  }
  return false;
}

const isNoHelp = (word: string): boolean => word !== "--help" && word !== "-h";

const example = `
Example: a rig and a take to start from, then the main job:
  splitsum init my-rig
  splitsum compare my-rig/ferry-road.yaml`;
