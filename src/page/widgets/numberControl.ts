import type { NumberSetting } from "../../sound/dsp/kernel.js";
import { el, newId, setText } from "./dom.js";

export interface ControlNames {
  readonly name: string;
  readonly unit: string;
  /** Whose setting it is, for those who hear the page: "Undertow". */
  readonly owner: string;
  readonly says?: string | undefined;
}
export interface Control<T> {
  readonly node: HTMLElement;
  set(value: T): void;
}

/** Steps of a slider from end to end. */
const steps = 400;

/** A number with bounds: a native slider, on a log scale where the table says so, and a field to type into. */
export function numberControl(
  setting: Omit<NumberSetting, "default">,
  { name, unit, owner, says }: ControlNames,
  onChange: (value: number) => void,
): Control<number> {
  const { min, max } = setting;
  const id = newId("setting");
  const range = el("input", {
    type: "range",
    min: 0,
    max: steps,
    step: setting.whole ? steps / (max - min) : 1,
    "aria-label": `${owner}, ${name}`,
  });
  const field = el("input", {
    type: "number",
    id,
    min,
    max,
    step: setting.whole ? 1 : "any",
    inputmode: "decimal",
    "aria-label": `${owner}, ${name}${unit ? `, ${unit}` : ""}`,
    "aria-describedby": says ? `${id}-says` : null,
  });
  const fault = el("p", { class: "fault", role: "alert" });
  let current = min;
  const show = (value: number) => {
    current = value;
    range.value = String(toSlider(value, setting));
    range.setAttribute("aria-valuetext", `${brief(value)} ${unit}`.trim());
    if (document.activeElement !== field) field.value = brief(value);
  };
  range.addEventListener("input", () => {
    const value = fromSlider(range.valueAsNumber, setting);
    show(value);
    setText(fault, "");
    onChange(value);
  });
  field.addEventListener("change", () => {
    const typed = field.valueAsNumber;
    const fits = typed >= min && typed <= max && (!setting.whole || Number.isInteger(typed));
    field.setAttribute("aria-invalid", String(!fits));
    setText(fault, fits ? "" : outOfRange(name, unit, setting));
    if (!fits) return;
    show(typed);
    onChange(typed);
  });
  field.addEventListener("blur", () => {
    field.value = brief(current);
    field.removeAttribute("aria-invalid");
  });
  return {
    node: el(
      "div",
      { class: "setting" },
      settingLabel(id, { name, says }),
      range,
      el("span", { class: "entry" }, field, el("span", { class: "unit", "aria-hidden": true }, unit)),
      fault,
    ),
    set: show,
  };
}

/** A setting's name over what it does. */
export function settingLabel(
  id: string,
  { name, says }: Pick<ControlNames, "name" | "says">,
): HTMLLabelElement {
  return el("label", { for: id }, name, says ? el("small", { id: `${id}-says` }, says) : null);
}

function outOfRange(name: string, unit: string, { min, max, whole }: Omit<NumberSetting, "default">): string {
  return `The ${name} goes from ${min} to ${max}${unit ? ` ${unit}` : ""}${whole ? ", whole numbers only" : ""}.`;
}

type Scale = Pick<NumberSetting, "min" | "max" | "log" | "whole">;

export function toSlider(value: number, { min, max, log }: Scale): number {
  const share = log ? Math.log(value / min) / Math.log(max / min) : (value - min) / (max - min);
  return Math.round(share * steps);
}

/** The value of a slider's place: the ends exactly, three figures between. */
export function fromSlider(place: number, { min, max, log, whole }: Scale): number {
  if (place <= 0) return min;
  if (place >= steps) return max;
  const share = place / steps;
  const value = log ? min * (max / min) ** share : min + (max - min) * share;
  if (whole) return Math.round(value);
  const rounded = log ? Number(value.toPrecision(3)) : roundTo(value, (max - min) / steps);
  return Math.min(max, Math.max(min, rounded));
}

/** To the decimal place that a step needs. */
function roundTo(value: number, step: number): number {
  const places = Math.max(0, Math.ceil(-Math.log10(step)));
  return Number(value.toFixed(places));
}

const brief = (value: number): string => String(Number(value.toPrecision(6)));
