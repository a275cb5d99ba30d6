// What the build makes of the folder `assembly`: its code, and how to run it.
import type { AssembledLoops } from "./loops.js";

/** The code, compiled; throws where the engine cannot. */
export function compileLoops(): WebAssembly.Module;
export function runLoops(code: WebAssembly.Module, memory: WebAssembly.Memory): AssembledLoops;
