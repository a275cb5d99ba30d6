import { el, newId, setText } from "../../widgets/dom.js";
import { section } from "../../widgets/section.js";
import { lasting } from "../../widgets/typeset.js";
import { type Panel, reportOf, type View } from "../view.js";

export interface TakePanel extends Panel {
  /** Takes a recording in, or says why it cannot be used. */
  load(file: File): Promise<void>;
}

/** A recording of the person's own: dropped anywhere on the page, or chosen. */
export function takePanel(view: View): TakePanel {
  const { bench } = view;
  const id = newId("file");
  const input = el("input", {
    type: "file",
    id,
    accept: "audio/*,.wav,.flac,.mp3,.ogg,.aif,.aiff,.m4a",
    "aria-describedby": `${id}-promise`,
  });
  const now = el("p", { class: "now" });
  const notices = el("ul", { class: "notices" });
  const fault = el("p", { class: "fault", role: "alert" });
  const load = async (file: File) => {
    setText(fault, "");
    view.say(`Reading ${file.name}.`);
    try {
      await bench.loadTake(file);
      view.say(`${file.name} is the take now.`);
    } catch (error) {
      setText(fault, error instanceof Error ? error.message : String(error));
    }
  };
  input.addEventListener("change", () => {
    const [file] = input.files ?? [];
    if (file) void load(file);
    input.value = "";
  });
  const update = () => {
    const { take } = reportOf(view);
    setText(now, `Now: ${bench.takeName}, ${lasting(take.frames / take.rateHz)} at ${take.rateHz} Hz.`);
    notices.replaceChildren(...take.notices.map((notice) => el("li", {}, notice)));
  };
  update();
  return {
    node: section(
      "take",
      "Bring a take",
      now,
      notices,
      el("p", { class: "file-choice" }, el("label", { for: id }, "Choose a recording"), input),
      el(
        "p",
        { id: `${id}-promise`, class: "hint" },
        "Or drop one anywhere on this page. It never leaves this machine: the page has no way to reach a network.",
      ),
      fault,
    ),
    load,
    update(change) {
      if (change === "take" || change === "report") update();
    },
  };
}

/** Lets a file be dropped anywhere on the page. */
export function listenForDrops(root: HTMLElement, onFile: (file: File) => void): void {
  const carriesFiles = (event: DragEvent) => event.dataTransfer?.types.includes("Files") ?? false;
  document.addEventListener("dragover", (event) => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    root.classList.add("dropping");
  });
  document.addEventListener("dragleave", (event) => {
    if (event.relatedTarget === null) root.classList.remove("dropping");
  });
  document.addEventListener("drop", (event) => {
    root.classList.remove("dropping");
    if (!carriesFiles(event)) return;
    event.preventDefault();
    const [file] = event.dataTransfer?.files ?? [];
    if (file) onFile(file);
  });
}
