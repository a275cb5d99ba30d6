import { safeFileName } from "../../../text/fileName.js";
import { button } from "../../widgets/button.js";
import { download, textFile } from "../../widgets/download.js";
import type { View } from "../view.js";

/** A new page with the rig and the take in it, as one file to mail. */
export function savePageButton({ bench, say }: View): HTMLElement {
  const save = async () => {
    say("Putting the page together.");
    const { html, leftOut } = await bench.savedPage();
    download(textFile(html, "text/html"), `${safeFileName(nameOf(bench.desk.data))}.html`);
    bench.desk.saved();
    say(leftOut === null ? "The page is saved, with rig and take." : leftOut);
  };
  return button("Save this page", () => void save());
}

const nameOf = (data: unknown): string =>
  typeof data === "object" && data !== null && "name" in data ? String(data.name) : "rig";
