import type { Path } from "../../../rig/file/yaml.js";
import { pedalModels } from "../../../rig/pedals/models.js";
import type { Setting, SettingTable } from "../../../sound/dsp/kernel.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { el, fill } from "../../widgets/dom.js";
import { fieldsAt } from "../../widgets/form/fieldsAt.js";
import { grid } from "../../widgets/form/fold.js";
import { type Choice, choiceField, type RigField, type RigPart, set } from "../../widgets/form/rigFields.js";
import { settingName } from "../../widgets/settingName.js";

interface SettingsOf {
  /** Where they stand. */
  readonly path: () => Path;
  readonly model: () => unknown;
  readonly owner: () => string;
  /** What holds of what is left empty; the model's default where it is not told. */
  readonly otherwise?: string;
}

/** The settings of a pedal as the file has them, one field each; another model has others. Files have their own field. */
export function settingsPart(desk: RigDesk, of: SettingsOf): RigPart {
  const node = el("div", {});
  let madeFor: unknown = null;
  let made: RigPart = grid();
  return {
    node,
    get fields() {
      return made.fields;
    },
    update() {
      const model = of.model();
      if (model !== madeFor) {
        madeFor = model;
        made = grid(...fieldsFor(desk, of, tableOf(model)));
        fill(node, made.node);
      }
      made.update();
    },
  };
}

const tableOf = (model: unknown): SettingTable =>
  typeof model === "string" && Object.hasOwn(pedalModels, model) ? pedalModels[model].settings : {};

const fieldsFor = (desk: RigDesk, of: SettingsOf, table: SettingTable): readonly RigField[] =>
  Object.entries(table).flatMap(([key, setting]) =>
    "file" in setting ? [] : [settingField(desk, of, key, setting)],
  );

function settingField(desk: RigDesk, { path, owner, otherwise }: SettingsOf, key: string, setting: Setting) {
  const { name, unit } = settingName(key);
  const fields = fieldsAt(desk, path, owner);
  const empty = otherwise ?? `${setting.default}`;
  if ("min" in setting)
    return fields.number(name, unit, [key], `${setting.min} to ${setting.max}; empty: ${empty}`);
  const words: readonly string[] = "choices" in setting ? setting.choices : ["true", "false"];
  const choices = words.map((word): Choice => [word, plainWords[word] ?? word.replaceAll("-", " ")]);
  const place = fields.place(name, [key], setting.says);
  return choiceField(
    desk,
    place,
    [["", empty === otherwise ? empty : `as usual: ${said(empty)}`], ...choices],
    {
      onSet: (word) =>
        set(desk, place, word === "" ? undefined : "choices" in setting ? word : word === "true"),
    },
  );
}

const plainWords: Readonly<Record<string, string>> = { true: "yes", false: "no" };
const said = (word: string): string => plainWords[word] ?? word.replaceAll("-", " ");
