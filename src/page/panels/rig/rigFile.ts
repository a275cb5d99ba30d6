import { valueAt } from "../../../rig/file/dataAt.js";
import { safeFileName } from "../../../text/fileName.js";
import { button } from "../../widgets/button.js";
import { download, textFile } from "../../widgets/download.js";
import type { View } from "../view.js";
import { fileButton } from "./fileButton.js";

export const openButton = (onFile: (file: File) => void): HTMLElement =>
  fileButton("Open a rig file", ".yaml,.yml", onFile).node;

/** @returns what keeps it from being opened; nothing where it is open */
export async function openRig({ bench: { desk }, say }: View, file: File): Promise<string> {
  if (file.size > mostBytes)
    return `${file.name} is larger than 1 MB; a rig file is a few kB of YAML. The rig stays as it is.`;
  // What is being typed holds first, so that undo has it.
  if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
  try {
    desk.open(file.name, await file.text());
  } catch {
    return `${file.name} cannot be read. Look whether it is still there; the rig stays as it is.`;
  }
  say(desk.faults.length > 0 ? `${file.name} has faults; they are listed.` : `${file.name} is open.`);
  return "";
}
const mostBytes = 1_000_000;

export function saveButton({ bench: { desk } }: View): HTMLElement {
  return button("Save the rig file", () => {
    const name = String(valueAt(desk.data, ["name"]) ?? "rig");
    download(textFile(desk.text, "application/yaml"), `${safeFileName(name)}.yaml`);
    desk.saved();
  });
}
