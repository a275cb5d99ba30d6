/** One thing that a person can mend, and where it stands. Lines and columns count from 1. */
export interface Fault {
  readonly message: string;
  readonly file?: string | undefined;
  readonly line?: number | undefined;
  readonly column?: number | undefined;
}

/**
 * What a person can mend: wrong words, a wrong file, a rig that does not hold together. Everything else is a bug and
 * keeps its stack. `exitStatus` is 2 (wrong words or a wrong file) unless the work itself failed (1).
 * @example
 * ```ts
 * import { readRig, UserError } from "splitsum";
 * try {
 *   await readRig("no-such-rig.yaml");
 * } catch (error) {
 *   if (!(error instanceof UserError)) throw error;
 *   for (const { file, line, message } of error.faults) console.log(file, line, message);
 * }
 * ```
 */
export class UserError extends Error {
  readonly faults: readonly Fault[];
  readonly exitStatus: 1 | 2;
  constructor(faults: string | Fault | readonly Fault[], exitStatus: 1 | 2 = 2) {
    const list =
      typeof faults === "string" ? [{ message: faults }] : Array.isArray(faults) ? faults : [faults as Fault];
    super(list.map(faultLine).join("\n"));
    this.name = "UserError";
    this.faults = list;
    this.exitStatus = exitStatus;
  }
}

/** `rig.yaml:14:18: depth is 1.4; ...`: one line, no more of the place than is known. */
export function faultLine({ file, line, column, message }: Fault): string {
  const place = [file, line, line === undefined ? undefined : column]
    .filter((part) => part !== undefined)
    .join(":");
  return place ? `${place}: ${message}` : message;
}
