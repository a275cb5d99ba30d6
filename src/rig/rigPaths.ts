import { dirname, isAbsolute, join } from "node:path";
import { pedalModels } from "../pedals/models.js";
import type { Rig } from "./rig.js";

/** A path as a rig file writes it, relative to the folder of that file; `null` or "-" for a rig that has none: to here. */
export function besideRig(path: string, rigFile: string | null): string {
  const folder = rigFile === null || rigFile === "-" ? "." : dirname(rigFile);
  return isAbsolute(path) ? path : join(folder, path);
}

/** Where the rig's take is; null when the rig names none. */
export function takePath(rig: Rig, rigFile: string | null): string | null {
  return rig.take === null ? null : besideRig(rig.take, rigFile);
}

/** Every sound file that settings of the rig's pedals name, as written, each once. */
export function clipFiles(rig: Rig): readonly string[] {
  const overrides = [
    ...Object.entries(rig.stereoUnit),
    ...Object.entries(rig.secondUnit),
    ...Object.values(rig.wirings).flatMap(({ boxes }) =>
      Object.values(boxes).flatMap((box) =>
        box.box === "pedal" ? [[box.pedal, box.settings] as const] : [],
      ),
    ),
  ];
  const files = rig.pedals.flatMap(({ name, model, settings }) => {
    const others = overrides
      .filter(([pedal]) => pedal === name || pedal === "*")
      .map(([, changed]) => changed);
    return [settings, ...others].flatMap((values) => filesIn(values, model));
  });
  return [...new Set(files)];
}

function filesIn(settings: Readonly<Record<string, unknown>>, model: string): string[] {
  const table = pedalModels[model]?.settings ?? {};
  return Object.entries(table).flatMap(([key, setting]) => {
    const value = settings[key];
    return "file" in setting && typeof value === "string" && value !== "" ? [value] : [];
  });
}
