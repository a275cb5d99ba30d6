import type { Setting, SettingTable, SettingValue } from "../../sound/dsp/kernel.js";
import { aOrAn } from "../../text/words.js";
import { choiceField, mapField, numberField, switchField, textField } from "./fields.js";
import type { z } from "./zod.js";

/**
 * The settings of a model as a schema, made from its table: bounds, words and defaults stand there and nowhere else.
 * With `partial`, only what is written is kept: the form of a difference to another unit.
 */
export function settingsSchema(
  model: string,
  table: SettingTable,
  partial = false,
): z.ZodType<Record<string, SettingValue>> {
  const fields: Record<string, z.ZodType<SettingValue | undefined>> = {};
  for (const [key, setting] of Object.entries(table)) {
    const field = settingField(model, key, setting);
    const described = setting.says === undefined ? field : field.describe(setting.says);
    if (partial) fields[key] = described.optional();
    // The name of a file has no default that would do.
    else fields[key] = "file" in setting ? described : described.default(setting.default);
  }
  return mapField({ owner: aOrAn(model), key: "settings" }, fields).transform(withoutGaps);
}

function settingField(model: string, key: string, setting: Setting): z.ZodType<SettingValue> {
  const name = { owner: aOrAn(model), key };
  if ("file" in setting) return textField(name, 1000);
  if ("choices" in setting) return choiceField(name, setting.choices);
  if ("min" in setting) return numberField(name, setting);
  return switchField(name);
}

function withoutGaps(
  settings: Readonly<Record<string, SettingValue | undefined>>,
): Record<string, SettingValue> {
  const kept: Record<string, SettingValue> = {};
  for (const [key, value] of Object.entries(settings)) if (value !== undefined) kept[key] = value;
  return kept;
}
