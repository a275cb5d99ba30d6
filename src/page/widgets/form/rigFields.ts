import { valueAt } from "../../../rig/file/dataAt.js";
import type { Path } from "../../../rig/file/yaml.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { el, newId, setText } from "../dom.js";

/** Where in the rig file a field stands, and what it is called. */
export interface FieldPlace {
  /** Asked for each time: a pedal that moves takes its fields along. */
  readonly path: () => Path;
  /** Before the field. */
  readonly label: string;
  /** Whose it is, for those who hear the page and for undo: "Boiler tank". */
  readonly owner: () => string;
  /** What it means, and what holds where it is empty. */
  readonly hint?: string;
}

/** A piece of the form. */
export interface RigPart {
  readonly node: HTMLElement;
  readonly fields: readonly RigField[];
  update(): void;
}

/** A field of the rig file: shows what stands there, and what is wrong with it, in the words of the file's checks. */
export interface RigField extends RigPart {
  readonly path: Path;
  readonly hasFault: boolean;
  focus(): void;
}

/** Free text. */
export function textField(
  desk: RigDesk,
  place: FieldPlace,
  onSet: (text: string) => void = (text) => set(desk, place, text),
): RigField {
  const input = el("input", { type: "text", autocomplete: "off", spellcheck: "false" });
  return typedField(desk, place, input, onSet);
}

/** A number; an empty field takes it out of the file. */
export function numberField(
  desk: RigDesk,
  place: FieldPlace,
  unit: string,
  onSet: (value: unknown) => void = (value) => set(desk, place, value),
): RigField {
  const input = el("input", { type: "text", inputmode: "decimal", autocomplete: "off", class: "number" });
  return typedField(desk, place, input, (text) => onSet(numberIn(text)), unit);
}

/** What is being typed is left alone until the field is left. */
function typedField(
  desk: RigDesk,
  place: FieldPlace,
  input: HTMLInputElement,
  onSet: (text: string) => void,
  unit = "",
): RigField {
  let isTyping = false;
  input.addEventListener("input", () => {
    isTyping = true;
  });
  input.addEventListener("change", () => {
    isTyping = false;
    onSet(input.value);
  });
  input.addEventListener("blur", () => {
    isTyping = false;
  });
  const show = (value: unknown) => {
    const words = value === undefined || value === null ? "" : String(value);
    if (!isTyping && input.value !== words) input.value = words;
  };
  return field(desk, place, input, show, unit);
}

export type Choice = readonly [value: string, words: string];

interface ChoiceOptions {
  /** The word that holds where the file says nothing. */
  readonly usual?: string;
  /** The word for what stands in the file, where that is more than to read it. */
  readonly wordOf?: (value: unknown) => string;
  /** Does what a choice means, where that is more than to write it down. */
  readonly onSet?: (value: string) => void;
}

/** One of a few words. */
export function choiceField(
  desk: RigDesk,
  place: FieldPlace,
  choices: readonly Choice[],
  {
    usual = "",
    wordOf = (value) => String(value ?? usual),
    onSet = (value) => set(desk, place, value),
  }: ChoiceOptions = {},
): RigField {
  const list = el("select", {}, ...choices.map(([value, words]) => el("option", { value }, words)));
  list.addEventListener("change", () => onSet(list.value));
  return field(desk, place, list, (value) => {
    const word = wordOf(value);
    if (list.value === word) return;
    const known = choices.some(([choice]) => choice === word);
    list.querySelector("option[data-odd]")?.remove();
    if (!known) list.append(el("option", { value: word, "data-odd": true }, word || "not said"));
    list.value = word;
  });
}

/** Yes or no. @param usual  what holds where the file says nothing */
export function switchField(desk: RigDesk, place: FieldPlace, usual: boolean): RigField {
  return markField(
    desk,
    place,
    (value) => (value === undefined ? usual : value === true),
    (on) => set(desk, place, on),
  );
}

/** Yes or no, where that is more than true or false in the file. */
export function markField(
  desk: RigDesk,
  place: FieldPlace,
  isOn: (value: unknown) => boolean,
  onSet: (on: boolean) => void,
): RigField {
  const box = el("input", { type: "checkbox" });
  box.addEventListener("change", () => onSet(box.checked));
  return field(desk, place, box, (value) => {
    box.checked = isOn(value);
  });
}

/** Puts a value in the file, as one step. */
export const set = (desk: RigDesk, { path, owner, label }: FieldPlace, to: unknown): void =>
  desk.edit(`${owner()}, ${label}`, [{ set: path(), to }]);

/** Decimals also with a comma; what is no number stays as it was typed, so that the check can say so. */
function numberIn(text: string): unknown {
  const typed = text.trim();
  if (typed === "") return undefined;
  const number = Number(typed.replace(",", "."));
  return Number.isFinite(number) ? number : typed;
}

function field(
  desk: RigDesk,
  { path, label, owner, hint }: FieldPlace,
  input: HTMLInputElement | HTMLSelectElement,
  show: (value: unknown) => void,
  unit = "",
): RigField {
  const id = newId("rig");
  const fault = el("p", { class: "fault", id: `${id}-fault` });
  const says = hint ? el("small", { id: `${id}-says` }, hint) : null;
  let hasFault = false;
  let lastName = "";
  input.id = id;
  if (says) input.setAttribute("aria-describedby", says.id);
  const showFaults = () => {
    const own = desk.faults.filter((each) => samePath(each.path, path()));
    hasFault = own.length > 0;
    setText(fault, own.map(({ message }) => message).join(" "));
    input.setAttribute("aria-invalid", String(hasFault));
    const told = [says?.id, hasFault ? fault.id : undefined].filter((each) => each !== undefined);
    if (told.length > 0) input.setAttribute("aria-describedby", told.join(" "));
    else input.removeAttribute("aria-describedby");
  };
  const node = el(
    "div",
    { class: `rig-field${input.type === "checkbox" ? " switch" : ""}` },
    el("label", { for: id }, label, says),
    el(
      "span",
      { class: "entry" },
      input,
      unit ? el("span", { class: "unit", "aria-hidden": true }, unit) : null,
    ),
    fault,
  );
  const made: RigField = {
    node,
    get fields() {
      return [made];
    },
    get path() {
      return path();
    },
    get hasFault() {
      return hasFault;
    },
    focus: () => input.focus(),
    update() {
      const name = `${owner()}, ${label}${unit ? `, ${unit}` : ""}`;
      if (name !== lastName) input.setAttribute("aria-label", name);
      lastName = name;
      show(valueAt(desk.data, path()));
      // Most fields have no fault, before and after: they are left alone, since a knob that is drawn comes by here.
      if (desk.faults.length > 0 || hasFault) showFaults();
    },
  };
  return made;
}

export const samePath = (a: Path | null, b: Path): boolean =>
  a !== null && a.length === b.length && a.every((step, n) => String(step) === String(b[n]));
