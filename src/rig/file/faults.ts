import type { Fault } from "../../text/userError.js";
import type { Path, YamlText } from "./yaml.js";
import type { z } from "./zod.js";

/** What is wrong, and the path in the rig where. `atKey` points at the key itself and not at its value. */
export interface PathFault {
  readonly path: Path;
  readonly message: string;
  readonly atKey?: boolean;
}

/** The issues of a schema as faults, each where it stands: an unknown key at that key, not at the map around it. */
export function pathFaults(error: Pick<z.ZodError, "issues">, under: Path = []): readonly PathFault[] {
  return error.issues.flatMap((issue): PathFault[] => {
    const path = [...under, ...issue.path];
    if (issue.code === "unrecognized_keys") {
      const lines = issue.message.split("\n");
      return issue.keys.map((key, n) => ({
        path: [...path, key],
        message: lines[n] ?? issue.message,
        atKey: true,
      }));
    }
    if (issue.code === "invalid_union") {
      // One of several forms was meant when something inside it is wrong, not the form itself.
      const meant = issue.errors.find((issues) => issues.every((inner) => inner.path.length > 0));
      if (meant && meant.length > 0) return [...pathFaults({ issues: meant }, path)];
    }
    if (issue.code === "invalid_key") {
      return [{ path, message: issue.issues[0]?.message ?? issue.message, atKey: true }];
    }
    return [{ path, message: issue.message }];
  });
}

/** A fault and where in the rig it is; null where that is not known. */
export interface RigFault extends Fault {
  readonly path: Path | null;
}

/** Faults with file, line and column, in the order of the file; each once. */
export function placedFaults(
  faults: readonly PathFault[],
  text: YamlText,
  file: string,
): readonly RigFault[] {
  const placed = faults.map(({ path, message, atKey }): RigFault => {
    const place = atKey ? text.placeOfKey(path) : text.placeOf(path);
    return { file, line: place?.line, column: place?.column, message, path };
  });
  placed.sort((a, b) => (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0));
  const seen = new Set<string>();
  const once = placed.filter(({ line, column, message }) => {
    const key = `${line}:${column}:${message}`;
    return !seen.has(key) && seen.add(key);
  });
  if (once.length <= mostShown) return once;
  const rest = { file, message: `and ${once.length - mostShown} more faults. Mend these first.`, path: null };
  return [...once.slice(0, mostShown), rest];
}

const mostShown = 40;
