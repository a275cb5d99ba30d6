import { dirname, isAbsolute, join } from "node:path";
import type { Rig } from "../../rig/model/rig.js";

/** Where the rig's take is: the path that it writes, from the folder of its file on; null when it names none. */
export function takePath(rig: Rig, rigFile: string): string | null {
  if (rig.take === null || isAbsolute(rig.take)) return rig.take;
  return join(rigFile === "-" ? "." : dirname(rigFile), rig.take);
}
