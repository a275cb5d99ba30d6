import { UserError } from "../../text/userError.js";

/**
 * Refuses text that opens more brackets, or starts more lists on one line, than any rig. The parser calls itself once
 * a level, and where the stack ends it may take the whole process down.
 */
export function refuseDepth(source: string, file: string): void {
  let depth = 0;
  let line = 1;
  for (const character of source) {
    if (character === "\n") line++;
    else if (character === "[" || character === "{") depth++;
    else if ((character === "]" || character === "}") && depth > 0) depth--;
    if (depth > deepest) throw new UserError({ file, line, message: tooDeep });
  }
  const nested = new RegExp(`^(?:[ \\t]*[-?:][ \\t]){${deepest}}`, "m").exec(source);
  if (nested)
    throw new UserError({ file, line: source.slice(0, nested.index).split("\n").length, message: tooDeep });
}

const deepest = 100;
const tooDeep = "is nested too deep to read; a rig needs six levels. Take brackets or dashes out.";

/** What `refuseDepth` did not foresee: deep indentation. */
export function notTooDeep<T>(file: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new UserError({ file, message: tooDeep });
  }
}
