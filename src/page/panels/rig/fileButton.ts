import { el, newId } from "../../widgets/dom.js";

/** A button that lets a file be chosen; it stays on the machine. */
export function fileButton(words: string, accept: string, onFile: (file: File) => void) {
  const id = newId("file");
  const input = el("input", { type: "file", id, accept, class: "visually-hidden" });
  input.addEventListener("change", () => {
    const [file] = input.files ?? [];
    if (file) onFile(file);
    input.value = "";
  });
  return { node: el("span", { class: "file-button" }, input, el("label", { for: id }, words)), input };
}
