import { existsSync } from "node:fs";
import module from "node:module";
import { tmpdir } from "node:os";

/**
 * Has V8 keep compiled code from run to run, where Node can (22.8 and later), in Node's own folder for it; where that
 * cannot be written, Node does without and says nothing. Without a folder for passing files it is not asked: making one
 * may never end (Node 22 and 24, under /proc). For the calling thread alone: others, which load little, gain nothing.
 * Source: Node's documentation of `module.enableCompileCache`.
 */
export function keepCompiledCode(): void {
  if (module.enableCompileCache && existsSync(tmpdir())) module.enableCompileCache();
}
