import { otherwiseWords } from "../../words/inputWords.js";
import type { Bench, BenchChange } from "../contract/bench.js";
import type { InputLevel } from "../contract/soundInput.js";
import { button } from "../widgets/button.js";
import { el, fill, setText } from "../widgets/dom.js";
import { eachFrame } from "../widgets/eachFrame.js";
import { LevelBar } from "../widgets/levelBar.js";
import { PickList } from "../widgets/pickList.js";
import { decimal, withUnit } from "../widgets/typeset.js";
import type { View } from "./view.js";

/** The input of the page: asked for, chosen, its levels with clip lights, let go; or why it may not be heard. */
export class InputControl {
  readonly node: HTMLElement;
  readonly #view: View;
  readonly #purpose: keyof typeof otherwiseWords;
  readonly #ask: HTMLButtonElement;
  readonly #close: HTMLButtonElement;
  readonly #state = el("p", { class: "hint", role: "status" });
  readonly #refused = el("p", { class: "fault", role: "alert" });
  readonly #devices: PickList;
  readonly #open: HTMLElement;
  readonly #bars = el("div", { class: "level-bars" });
  readonly #clear: HTMLButtonElement;
  #meters: readonly LevelBar[] = [];
  readonly #draw = eachFrame(() => this.#drawLevels());
  #saidClip = false;

  /**
   * @param purpose  what to do where the browser refuses depends on it
   * @param choices  what else belongs to an open input: shown beside the device
   */
  constructor(view: View, purpose: keyof typeof otherwiseWords, ...choices: readonly HTMLElement[]) {
    const { input } = view.bench;
    this.#view = view;
    this.#purpose = purpose;
    this.#ask = button("Use an audio input", () => void input.open(), "strong");
    this.#close = button("Let the input go", () => input.close(), "quiet");
    this.#clear = button("Clear the marks", () => input.clearMarks(), "quiet");
    this.#devices = new PickList("device", "Input", (id) => void input.open(id));
    this.#open = el(
      "div",
      { class: "input-open" },
      el("p", { class: "file-choice" }, this.#devices.label, this.#devices.list),
      ...choices,
      this.#bars,
      el("p", { class: "actions" }, this.#clear, this.#close),
    );
    this.node = el(
      "div",
      { class: "sound-input" },
      this.#refused,
      this.#state,
      el("p", { class: "actions" }, this.#ask),
      this.#open,
    );
    this.update("input");
  }

  focus(): void {
    (this.#open.hidden ? this.#ask : this.#devices.list).focus();
  }

  update(change: BenchChange): void {
    if (change !== "input") return;
    const { state } = this.#view.bench.input;
    const hadFocus = this.node.contains(document.activeElement);
    setText(this.#refused, state.kind === "refused" ? `${state.words} ${otherwiseWords[this.#purpose]}` : "");
    setText(this.#state, state.kind === "asking" ? asking : "");
    this.#ask.hidden = state.kind === "open";
    this.#ask.disabled = state.kind === "asking";
    setText(this.#ask, state.kind === "refused" ? "Ask again" : "Use an audio input");
    this.#open.hidden = state.kind !== "open";
    if (state.kind === "open") this.#show(state);
    if (hadFocus && !this.node.contains(document.activeElement)) this.focus();
    if (state.kind === "open") this.#draw();
  }

  #show({ device, channels }: Extract<Bench["input"]["state"], { kind: "open" }>): void {
    const { devices } = this.#view.bench.input;
    const all = devices.some(({ id }) => id === device.id) ? devices : [device, ...devices];
    this.#devices.setOptions(
      all.map(({ id, label }) => [id, label]),
      device.id,
    );
    this.#saidClip = false;
    this.#meters = Array.from(
      { length: channels },
      (_, n) => new LevelBar(channels === 1 ? "Level" : `Level of channel ${n + 1}`),
    );
    fill(this.#bars, ...this.#meters.map(({ node }) => node));
  }

  /** While it is open. */
  #drawLevels(): boolean {
    const { input } = this.#view.bench;
    const { levels } = input;
    levels.forEach((level, n) => {
      this.#meters[n]?.show(level, levelWords(level));
    });
    this.#tellClip(levels.some(({ isClipped }) => isClipped));
    return input.state.kind === "open";
  }

  #tellClip(isClipped: boolean): void {
    if (isClipped && !this.#saidClip) this.#view.say("The input clips: turn its level down.");
    this.#saidClip = isClipped;
  }
}

/** What stands beside a bar. */
const levelWords = ({ highestDbfs }: InputLevel): string =>
  highestDbfs === null ? "silence" : `highest ${withUnit(decimal(highestDbfs, 1), "dBFS")}`;

const asking = "The browser asks whether this page may listen: say yes there.";
