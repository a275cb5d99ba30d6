import { valueAt } from "../../../rig/file/dataAt.js";
import type { RigEdit } from "../../../rig/file/editRig.js";
import type { Path } from "../../../rig/file/yaml.js";
import { pedalModels } from "../../../rig/pedals/models.js";
import { otherWordsFor } from "../../../rig/pedals/otherWords.js";
import type { Choice } from "../../widgets/form/rigFields.js";

/** Kinds of pedals by their names, with the models of each. */
const modelsByKind: ReadonlyMap<string, readonly string[]> = Object.entries(pedalModels).reduce(
  (kinds, [model, { kind }]) => kinds.set(kind, [...(kinds.get(kind) ?? []), model]),
  new Map<string, readonly string[]>(),
);

/** More make a line that no telephone shows. */
const mostOthers = 3;

/** Kinds of pedals, with other words that players have for them. */
export const kindChoices: readonly Choice[] = [...modelsByKind].map(([kind, models]) => {
  const others = [...new Set(models.flatMap(otherWordsFor))].slice(0, mostOthers);
  return [kind, others.length > 0 ? `${kind} (${others.join(", ")})` : kind];
});

export const modelsOf = (kind: string): readonly string[] => modelsByKind.get(kind) ?? [];

/** Models by the word of the rig file, told by kind: "Reverb: plate". */
export const modelChoices: readonly Choice[] = [...modelsByKind].flatMap(([kind, models]) =>
  models.map((model): Choice => [model, models.length > 1 ? `${kind}: ${model}` : kind]),
);

/** The keys of a model's settings that name sound files; of no model: none. */
export const fileKeys = (model: unknown): readonly string[] =>
  typeof model === "string" && Object.hasOwn(pedalModels, model)
    ? Object.entries(pedalModels[model].settings).flatMap(([key, setting]) =>
        "file" in setting ? [key] : [],
      )
    : [];

/** Another model has other settings: those that it knows too are kept, and a file is asked for. @param path  of the pedal */
export function modelEdits(data: unknown, path: Path, model: string): readonly RigEdit[] {
  const known = pedalModels[model]?.settings ?? {};
  const settings = valueAt(data, [...path, "settings"]);
  const written = Object.keys(typeof settings === "object" && settings ? settings : {});
  const gone = written.filter((key) => !Object.hasOwn(known, key));
  const asked = fileKeys(model).filter((key) => !written.includes(key));
  return [
    { set: [...path, "model"], to: model },
    ...gone.map((key) => ({ set: [...path, "settings", key], to: undefined })),
    ...asked.map((key) => ({ set: [...path, "settings", key], to: "" })),
  ];
}
