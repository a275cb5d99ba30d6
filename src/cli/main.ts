#!/usr/bin/env node
import { keepCompiledCode } from "../node/files/compileCache.js";
import { goWhereCalled } from "./calledAs.js";
import { fewFilesText, isFewFiles } from "./fewFiles.js";
import { watchStreams } from "./streams.js";

// The program is loaded from here, so that what stops the loading itself can be told in a line.
keepCompiledCode();
watchStreams();
goWhereCalled();
// Not process.exit: what is written to a pipe would be cut off.
process.exitCode = await start(process.argv.slice(2));

async function start(words: readonly string[]): Promise<number> {
  try {
    const { runProgram } = await import("./program.js");
    return await runProgram(words);
  } catch (error) {
    if (!isFewFiles(error)) throw error;
    process.stderr.write(fewFilesText);
    return 1;
  }
}
