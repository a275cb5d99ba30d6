import type { Path } from "../../../rig/file/yaml.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { el, newId, setText } from "../../widgets/dom.js";

/** Where in the rig file a field stands, and what it is called. */
export interface FieldPlace {
  readonly path: Path;
  /** Before the field. */
  readonly label: string;
  /** Whose it is, for those who hear the page and for undo: "Boiler tank". */
  readonly owner: () => string;
  readonly hint?: string;
}

/** A field of the rig file: shows what stands there, and what is wrong with it, in the words of the file's checks. */
export interface RigField {
  readonly node: HTMLElement;
  readonly path: Path;
  update(desk: RigDesk): void;
}

/** Free text. */
export function textField(desk: RigDesk, place: FieldPlace, onSet?: (text: string) => void): RigField {
  const input = el("input", { type: "text", autocomplete: "off", spellcheck: "false" });
  input.addEventListener("change", () => (onSet ?? ((text) => set(desk, place, text)))(input.value));
  return field(place, input, (value) => {
    if (document.activeElement !== input) input.value = value === undefined ? "" : String(value);
  });
}

/** A number; an empty field takes it out of the file. */
export function numberField(desk: RigDesk, place: FieldPlace, unit: string): RigField {
  const input = el("input", { type: "text", inputmode: "decimal", autocomplete: "off", class: "number" });
  input.addEventListener("change", () => set(desk, place, numberIn(input.value)));
  return field(
    place,
    input,
    (value) => {
      if (document.activeElement !== input)
        input.value = value === undefined || value === null ? "" : String(value);
    },
    unit,
  );
}

interface ChoiceOptions {
  /** The word that holds where the file says nothing. */
  readonly usual?: string;
  /** Does what a choice means, where that is more than to write it down. */
  readonly onSet?: (value: string) => void;
}

/** One of a few words. */
export function choiceField(
  desk: RigDesk,
  place: FieldPlace,
  choices: readonly (readonly [value: string, words: string])[],
  { usual, onSet = (value) => set(desk, place, value) }: ChoiceOptions = {},
): RigField {
  const list = el("select", {}, ...choices.map(([value, words]) => el("option", { value }, words)));
  list.addEventListener("change", () => onSet(list.value));
  return field(place, list, (value) => {
    const word = String(value ?? usual ?? "");
    const known = choices.some(([choice]) => choice === word);
    const odd = list.querySelector("option[data-odd]");
    odd?.remove();
    if (!known) list.append(el("option", { value: word, "data-odd": true }, word || "not said"));
    list.value = word;
  });
}

/** Yes or no. @param usual  what holds where the file says nothing */
export function switchField(desk: RigDesk, place: FieldPlace, usual: boolean): RigField {
  const box = el("input", { type: "checkbox" });
  box.addEventListener("change", () => set(desk, place, box.checked));
  return field(place, box, (value) => {
    box.checked = value === undefined ? usual : value === true;
  });
}

const set = (desk: RigDesk, { path, owner, label }: FieldPlace, to: unknown): void =>
  desk.edit(`${owner()}, ${label}`, [{ set: path, to }]);

/** Decimals also with a comma; what is no number stays as it was typed, so that the check can say so. */
function numberIn(text: string): unknown {
  const typed = text.trim();
  if (typed === "") return undefined;
  const number = Number(typed.replace(",", "."));
  return Number.isFinite(number) ? number : typed;
}

function field(
  { path, label, owner, hint }: FieldPlace,
  input: HTMLInputElement | HTMLSelectElement,
  show: (value: unknown) => void,
  unit = "",
): RigField {
  const id = newId("rig");
  const fault = el("p", { class: "fault", id: `${id}-fault` });
  input.id = id;
  const node = el(
    "div",
    { class: `rig-field${input.type === "checkbox" ? " switch" : ""}` },
    el("label", { for: id }, label, hint ? el("small", {}, hint) : null),
    el(
      "span",
      { class: "entry" },
      input,
      unit ? el("span", { class: "unit", "aria-hidden": true }, unit) : null,
    ),
    fault,
  );
  return {
    node,
    path,
    update(desk) {
      input.setAttribute("aria-label", `${owner()}, ${label}${unit ? `, ${unit}` : ""}`);
      show(valueAt(desk.data, path));
      const own = desk.faults.filter((each) => samePath(each.path, path));
      setText(fault, own.map(({ message }) => message).join(" "));
      input.setAttribute("aria-invalid", String(own.length > 0));
      if (own.length > 0) input.setAttribute("aria-describedby", fault.id);
      else input.removeAttribute("aria-describedby");
    },
  };
}

/** The plain data at a path; undefined where nothing stands. */
export function valueAt(data: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (value, step) => (typeof value === "object" && value !== null ? Reflect.get(value, step) : undefined),
    data,
  );
}

export const samePath = (a: Path | null, b: Path): boolean =>
  a !== null && a.length === b.length && a.every((step, n) => String(step) === String(b[n]));
