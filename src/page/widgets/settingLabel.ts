import { el } from "./dom.js";

export interface ControlNames {
  readonly name: string;
  readonly unit: string;
  /** Whose setting it is, for those who hear the page: "Undertow". */
  readonly owner: string;
  /** What it does, in a few words. */
  readonly hint?: string | undefined;
}

export interface Control<T> {
  readonly node: HTMLElement;
  set(value: T): void;
}

/** A setting's name over what it does. */
export function settingLabel(
  id: string,
  { name, hint }: Pick<ControlNames, "name" | "hint">,
): HTMLLabelElement {
  return el("label", { for: id }, name, hint ? el("small", { id: hintId(id) }, hint) : null);
}

/** How a control with that id names itself and its hint to those who hear the page. */
export const spokenNames = (id: string, { name, owner, hint }: ControlNames, unit = "") => ({
  "aria-label": `${owner}, ${name}${unit ? `, ${unit}` : ""}`,
  "aria-describedby": hint ? hintId(id) : null,
});

const hintId = (id: string): string => `${id}-says`;
