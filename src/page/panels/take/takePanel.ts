import type { BenchChange } from "../../contract/bench.js";
import { el, newId, setText } from "../../widgets/dom.js";
import { lasting } from "../../widgets/typeset.js";
import { takePick } from "../takePick.js";
import type { PagePart, Panel, View } from "../view.js";
import { RecordPart } from "./recordPart.js";

/** A recording of the person's own: dropped anywhere on the page, chosen, or recorded here. */
export class TakePanel implements Panel {
  readonly children: Panel["children"];
  readonly #view: View;
  readonly #now = el("p", { class: "now" });
  readonly #pick: PagePart | null;
  readonly #notices = el("ul", { class: "notices" });
  readonly #fault = el("p", { class: "fault", role: "alert" });
  readonly #record: RecordPart;

  constructor(view: View) {
    const id = newId("file");
    this.#view = view;
    this.#record = new RecordPart(view, (file) => void this.#load(file));
    this.#pick = takePick(view.bench, (place, name) => this.#use(name, () => view.bench.chooseTake(place)));
    this.#show();
    this.children = [
      this.#pick?.node,
      this.#now,
      this.#notices,
      el("p", { class: "file-choice" }, el("label", { for: id }, "Choose a recording"), this.#fileInput(id)),
      el("p", { id: `${id}-promise`, class: "hint" }, promise),
      this.#fault,
      this.#record.node,
    ];
  }

  update(change: BenchChange): void {
    this.#record.update(change);
    if (change === "take" || change === "report" || change === "shape") this.#show();
  }

  receive(file: File): boolean {
    void this.#load(file);
    return true;
  }

  #show(): void {
    const { takeName, report } = this.#view.bench;
    const { frames, rateHz, notices } = report?.take ?? { frames: 0, rateHz: 0, notices: [] };
    const length = report ? `, ${lasting(frames / rateHz)} at ${rateHz} Hz` : "";
    this.#pick?.update("take");
    setText(this.#now, `Now: ${takeName}${length}.`);
    this.#notices.replaceChildren(...notices.map((notice) => el("li", {}, notice)));
  }

  #fileInput(id: string): HTMLInputElement {
    const input = el("input", { type: "file", id, accept, "aria-describedby": `${id}-promise` });
    input.addEventListener("change", () => {
      const [file] = input.files ?? [];
      if (file) void this.#load(file);
      input.value = "";
    });
    return input;
  }

  /** Takes a recording in, or says why it cannot be used. */
  #load(file: File): Promise<void> {
    return this.#use(file.name, () => this.#view.bench.loadTake(file));
  }

  async #use(name: string, open: () => Promise<void>): Promise<void> {
    const { say } = this.#view;
    setText(this.#fault, "");
    say(`Reading ${name}.`);
    try {
      await open();
      say(`${name} is the take now.`);
    } catch (error) {
      setText(this.#fault, error instanceof Error ? error.message : String(error));
    }
  }
}

const accept = ".wav,.flac,.mp3,.ogg,.m4a";

const promise =
  "Or drop one anywhere on this page. It never leaves this machine: the page has no way to reach a network.";
