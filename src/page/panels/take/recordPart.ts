import type { BenchChange } from "../../contract/bench.js";
import type { RecordedFacts, RecorderState } from "../../contract/recorder.js";
import { button } from "../../widgets/button.js";
import { el, fill, setText } from "../../widgets/dom.js";
import { download } from "../../widgets/download.js";
import { eachFrame } from "../../widgets/eachFrame.js";
import { PickList } from "../../widgets/pickList.js";
import { clock, decimal, lasting, withUnit } from "../../widgets/typeset.js";
import { InputControl } from "../inputControl.js";
import type { View } from "../view.js";
import { CountInControl } from "./countInControl.js";

/** Records a take from an audio interface. What was recorded stays until it is used or discarded. */
export class RecordPart {
  readonly node: HTMLElement;
  readonly #view: View;
  readonly #input: InputControl;
  readonly #channels: PickList;
  readonly #countIn = new CountInControl();
  readonly #record: HTMLButtonElement;
  readonly #stop: HTMLButtonElement;
  readonly #listen: HTMLButtonElement;
  readonly #use: HTMLButtonElement;
  readonly #armed: HTMLElement;
  readonly #running: HTMLElement;
  readonly #ready: HTMLElement;
  readonly #doing = el("p", { class: "doing" });
  readonly #facts = el("p", {});
  readonly #notices = el("ul", { class: "notices" });
  #said = "";
  readonly #tick = eachFrame(() => this.#drawTime());

  /** @param onUse  makes a recording the take */
  constructor(view: View, onUse: (file: File) => void) {
    const { recorder } = view.bench;
    this.#view = view;
    this.#channels = new PickList("channels", "Channel");
    this.#input = new InputControl(
      view,
      "take",
      el("p", { class: "file-choice" }, this.#channels.label, this.#channels.list),
    );
    this.#record = button("Record", () => recorder.start(this.#chosen(), this.#countIn.value), "strong");
    this.#stop = button("Stop", () => recorder.stop(), "strong");
    this.#listen = button("Listen", () =>
      recorder.isListening ? recorder.stopListening() : recorder.listen(),
    );
    this.#use = button("Use it as the take", () => onUse(recorder.file()), "strong");
    const save = button("Save it as a WAV file", () => {
      const file = recorder.file();
      download(file, file.name);
    });
    const discard = button("Discard it", () => recorder.discard(), "quiet");
    this.#armed = el(
      "div",
      { class: "armed" },
      this.#countIn.node,
      el("p", { class: "actions" }, this.#record),
    );
    this.#running = el("div", { class: "running" }, this.#doing, el("p", { class: "actions" }, this.#stop));
    this.#ready = el(
      "div",
      { class: "recorded" },
      this.#facts,
      this.#notices,
      el("p", { class: "actions" }, this.#use, this.#listen, save, discard),
    );
    this.node = el(
      "section",
      { class: "record", "aria-label": "Record a take" },
      el("h3", {}, "Or record one here"),
      el("p", { class: "lead" }, lead),
      this.#input.node,
      this.#armed,
      this.#running,
      this.#ready,
    );
    this.update("input");
  }

  update(change: BenchChange): void {
    this.#input.update(change);
    if (change === "input") this.#listChannels();
    if (change === "input" || change === "recorder" || change === "take") this.#show();
  }

  #show(): void {
    const { recorder, input } = this.#view.bench;
    const { state } = recorder;
    const hadFocus = this.node.contains(document.activeElement);
    const isRunning = state.kind === "counting" || state.kind === "recording";
    this.#armed.hidden = state.kind !== "idle" || input.state.kind !== "open";
    this.#running.hidden = !isRunning;
    this.#ready.hidden = state.kind !== "ready";
    this.#channels.list.disabled = isRunning;
    if (state.kind === "ready") this.#showFacts(state.facts);
    setText(this.#listen, recorder.isListening ? "Stop listening" : "Listen");
    this.#tick();
    this.#tell(state);
    // What had the focus may be gone: it goes on to what is to be done next.
    if (hadFocus && !canHaveFocus(document.activeElement)) this.#focusNext(state);
  }

  #showFacts(facts: RecordedFacts): void {
    const isTake = this.#view.bench.takeName === facts.name;
    setText(this.#facts, factWords(facts, isTake));
    fill(this.#notices, ...facts.notices.map((notice) => el("li", {}, notice)));
    this.#use.disabled = isTake;
  }

  #focusNext({ kind }: RecorderState): void {
    if (kind === "counting" || kind === "recording") this.#stop.focus();
    else if (kind === "ready") (this.#use.disabled ? this.#listen : this.#use).focus();
    else if (this.#armed.hidden) this.#input.focus();
    else this.#record.focus();
  }

  #tell(state: RecorderState): void {
    const words =
      state.kind === "recording"
        ? "Recording."
        : state.kind === "counting"
          ? "Counting in."
          : state.kind === "ready"
            ? `Recorded: ${lasting(state.facts.seconds)}.`
            : "";
    if (words !== "" && words !== this.#said) this.#view.say(words);
    this.#said = words;
  }

  /** The count, or the time that is recorded. */
  #drawTime(): boolean {
    const { recorder } = this.#view.bench;
    const { state } = recorder;
    if (state.kind === "counting") setText(this.#doing, String(state.left));
    else if (state.kind === "recording") setText(this.#doing, `Recording ${clock(recorder.seconds)}`);
    return state.kind === "counting" || state.kind === "recording";
  }

  #listChannels(): void {
    const { state } = this.#view.bench.input;
    if (state.kind !== "open") return;
    const before = this.#channels.value;
    const singles = Array.from(
      { length: state.channels },
      (_, n) => [String(n), `channel ${n + 1}`] as const,
    );
    const pairs = singles
      .slice(0, -1)
      .map(([value], n) => [`${value} ${n + 1}`, `channels ${n + 1} and ${n + 2}, left and right`] as const)
      .filter((_, n) => n % 2 === 0);
    this.#channels.setOptions([...singles, ...pairs], before);
  }

  #chosen(): readonly number[] {
    return this.#channels.value.split(" ").map(Number);
  }
}

const canHaveFocus = (node: Element | null): boolean =>
  node !== null && node !== document.body && node.checkVisibility() && !node.matches(":disabled");

const lead =
  "From an audio interface, through the browser, with echo cancelling, noise suppression and gain control off. It stays in this page, on this machine.";

function factWords(
  { seconds, channels, rateHz, peakDbfs, isClipped }: RecordedFacts,
  isTake: boolean,
): string {
  const sides = channels === 2 ? "left and right" : "one channel";
  const peak = peakDbfs === null ? "" : `, peak ${withUnit(decimal(peakDbfs, 1), "dBFS")}`;
  const clipped = isClipped ? ": it clipped; turn the level down and record it again" : "";
  return `${isTake ? "This is the take now" : "Recorded"}: ${lasting(seconds)}, ${sides} at ${rateHz} Hz${peak}${clipped}.`;
}
