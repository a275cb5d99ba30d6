import { el } from "./dom.js";

/** A button that does one thing. */
export function button(words: string, act: () => void, look = ""): HTMLButtonElement {
  const made = el("button", { type: "button", class: look || null }, words);
  made.addEventListener("click", act);
  return made;
}
