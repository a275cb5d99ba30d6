import type { Setting, SettingValue } from "../../../sound/dsp/kernel.js";
import { el, newId } from "../../widgets/dom.js";
import { NumberControl } from "../../widgets/numberControl.js";
import { type Control, type ControlNames, settingLabel, spokenNames } from "../../widgets/settingLabel.js";
import { settingName } from "../../widgets/settingName.js";

/** The control that goes with a row of a model's table: slider and field, list, check box, or the name of a file. */
export function settingControl(
  key: string,
  setting: Setting,
  owner: string,
  onChange: (value: SettingValue) => void,
): Control<SettingValue> {
  const names: ControlNames = { ...settingName(key), owner, hint: setting.says };
  if ("min" in setting) {
    const control = new NumberControl(setting, names, onChange);
    return { node: control.node, set: (value) => control.set(Number(value)) };
  }
  if ("choices" in setting) return choiceControl(setting.choices, names, onChange);
  if ("file" in setting) return fileName(names);
  return switchControl(names, onChange);
}

function choiceControl(
  choices: readonly string[],
  names: ControlNames,
  onChange: (value: string) => void,
): Control<SettingValue> {
  const id = newId("setting");
  const options = choices.map((choice) => el("option", { value: choice }, choice.replaceAll("-", " ")));
  const list = el("select", { id, ...spokenNames(id, names) }, ...options);
  list.addEventListener("change", () => onChange(list.value));
  return {
    node: el("div", { class: "setting" }, settingLabel(id, names), list),
    set(value) {
      list.value = String(value);
    },
  };
}

export function switchControl(names: ControlNames, onChange: (on: boolean) => void): Control<SettingValue> {
  const id = newId("setting");
  const input = el("input", { type: "checkbox", id, ...spokenNames(id, names) });
  input.addEventListener("change", () => onChange(input.checked));
  return {
    node: el("div", { class: "setting switch" }, settingLabel(id, names), input),
    set(value) {
      input.checked = value === true;
    },
  };
}

function fileName({ name, hint }: ControlNames): Control<SettingValue> {
  const shown = el("span", { class: "file" });
  return {
    node: el("div", { class: "setting" }, el("span", {}, name, hint ? el("small", {}, hint) : null), shown),
    set(value) {
      shown.textContent = value === "" ? "none" : String(value);
    },
  };
}
