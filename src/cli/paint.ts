import picocolors from "picocolors";
import type { Paint } from "../words/table.js";

/** Bold and dim, or nothing: colours are decided by stream, not by the library. */
export function paintFor(colour: boolean): Paint {
  const { bold, dim } = picocolors.createColors(colour);
  return { bold, dim };
}
