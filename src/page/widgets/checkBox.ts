import { el } from "./dom.js";

/** A check box before its words. */
export function checkBox(
  words: string,
  onChange: (on: boolean) => void,
): { readonly node: HTMLElement; readonly input: HTMLInputElement } {
  const input = el("input", { type: "checkbox" });
  input.addEventListener("change", () => onChange(input.checked));
  return { node: el("label", { class: "check" }, input, ` ${words}`), input };
}
