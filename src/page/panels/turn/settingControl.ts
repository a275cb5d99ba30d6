import type { Setting, SettingValue } from "../../../sound/dsp/kernel.js";
import { el, newId } from "../../widgets/dom.js";
import { type Control, type ControlNames, numberControl, settingLabel } from "../../widgets/numberControl.js";
import { settingName } from "../../widgets/settingName.js";

/** The control that goes with a row of a model's table: slider and field, list, check box, or the name of a file. */
export function settingControl(
  key: string,
  setting: Setting,
  owner: string,
  onChange: (value: SettingValue) => void,
): Control<SettingValue> {
  const names: ControlNames = { ...settingName(key), owner, says: setting.says };
  if ("min" in setting) {
    const control = numberControl(setting, names, onChange);
    return { node: control.node, set: (value) => control.set(Number(value)) };
  }
  if ("choices" in setting) return choiceControl(setting.choices, names, onChange);
  if ("file" in setting) return fileName(names);
  return switchControl(names, onChange);
}

function choiceControl(
  choices: readonly string[],
  { name, owner, says }: ControlNames,
  onChange: (value: string) => void,
): Control<SettingValue> {
  const id = newId("setting");
  const list = el(
    "select",
    { id, "aria-label": `${owner}, ${name}`, "aria-describedby": says ? `${id}-says` : null },
    ...choices.map((choice) => el("option", { value: choice }, choice.replaceAll("-", " "))),
  );
  list.addEventListener("change", () => onChange(list.value));
  return {
    node: el("div", { class: "setting" }, settingLabel(id, { name, says }), list),
    set(value) {
      list.value = String(value);
    },
  };
}

export function switchControl(
  { name, owner, says }: ControlNames,
  onChange: (on: boolean) => void,
): Control<SettingValue> {
  const id = newId("setting");
  const input = el("input", {
    type: "checkbox",
    id,
    "aria-label": `${owner}, ${name}`,
    "aria-describedby": says ? `${id}-says` : null,
  });
  input.addEventListener("change", () => onChange(input.checked));
  return {
    node: el("div", { class: "setting switch" }, settingLabel(id, { name, says }), input),
    set(value) {
      input.checked = value === true;
    },
  };
}

function fileName({ name, says }: ControlNames): Control<SettingValue> {
  const shown = el("span", { class: "file" });
  return {
    node: el("div", { class: "setting" }, el("span", {}, name, says ? el("small", {}, says) : null), shown),
    set(value) {
      shown.textContent = value === "" ? "none" : String(value);
    },
  };
}
