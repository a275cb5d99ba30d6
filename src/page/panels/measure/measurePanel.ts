import { benchCautions } from "../../../words/benchCautions.js";
import { withoutOptions } from "../../../words/captureWords.js";
import { stillCaution } from "../../../work/capture/makeTone.js";
import type { BenchChange } from "../../contract/bench.js";
import type { CaptureOrder } from "../../contract/capture.js";
import { button } from "../../widgets/button.js";
import { el, setText } from "../../widgets/dom.js";
import { eachFrame } from "../../widgets/eachFrame.js";
import { ProgressBar } from "../../widgets/progressBar.js";
import { lasting } from "../../widgets/typeset.js";
import type { Panel, View } from "../view.js";
import { CaptureForm } from "./captureForm.js";
import { captureResult, saveButton } from "./captureResult.js";

/** Measures a real unit with the test tone, and puts what was found into the rig. */
export class MeasurePanel implements Panel {
  readonly children: readonly HTMLElement[];
  readonly #view: View;
  readonly #form: CaptureForm;
  readonly #none = el("p", { class: "hint" }, noUnit);
  readonly #play: HTMLButtonElement;
  readonly #stop: HTMLButtonElement;
  readonly #running: ProgressBar;
  readonly #working = el("p", { class: "hint", role: "status" });
  readonly #fault = el("p", { class: "fault", role: "alert" });
  /** A recording that cannot be used is worth a look all the same. */
  readonly #keep: HTMLButtonElement;
  readonly #cautions: HTMLElement;
  readonly #result: ReturnType<typeof captureResult>;
  readonly #tick = eachFrame(() => this.#drawTone());
  #wasKind = "idle";

  constructor(view: View) {
    this.#view = view;
    this.#form = new CaptureForm(view);
    this.#play = button("Play the tone and record", () => this.#start(), "strong");
    this.#stop = button("Stop the tone", () => view.bench.capture.stop(), "strong");
    this.#running = new ProgressBar("row working", "Tone played", this.#stop);
    this.#keep = saveButton("Save this recording", () => view.bench.capture.recording());
    this.#result = captureResult(view);
    this.#cautions = el(
      "section",
      { class: "cautions", "aria-label": "Before a tone sounds" },
      el("h3", {}, "Before a tone sounds"),
      el("ul", {}, ...[...benchCautions, stillCaution].map((caution) => el("li", {}, caution))),
      el("p", { class: "actions" }, this.#play),
    );
    const node = el(
      "div",
      { class: "measure-parts" },
      this.#none,
      this.#form.node,
      this.#cautions,
      this.#running.node,
      this.#working,
      this.#fault,
      el("p", { class: "actions" }, this.#keep),
      this.#result.node,
    );
    // Whatever has the focus: silence is one key away.
    document.addEventListener("keydown", ({ key }) => {
      if (key === "Escape" && view.bench.capture.state.kind === "playing") view.bench.capture.stop();
    });
    this.children = [el("p", { class: "lead" }, lead), node];
    this.update("input");
    this.update("capture");
    this.update("desk");
  }

  update(change: BenchChange): void {
    this.#form.update(change);
    if (change === "desk" || change === "input" || change === "recorder" || change === "capture")
      this.#show();
    if (change === "capture" || change === "desk") this.#result.update();
  }

  #show(): void {
    const { capture, recorder, input } = this.#view.bench;
    const { state } = capture;
    const hadFocus = document.activeElement === this.#play || document.activeElement === this.#stop;
    const isPlaying = state.kind === "playing";
    const isRecording = recorder.state.kind === "counting" || recorder.state.kind === "recording";
    const hasUnit = this.#form.hasUnit;
    this.#none.hidden = hasUnit;
    this.#form.node.hidden = !hasUnit;
    this.#cautions.hidden = !hasUnit || input.state.kind !== "open" || isPlaying;
    this.#play.disabled = isRecording;
    this.#tick();
    setText(this.#working, state.kind === "working" ? "Working out what came back." : "");
    setText(this.#fault, state.kind === "refused" ? withoutOptions(state.words) : "");
    this.#keep.hidden = state.kind !== "refused";
    if (hadFocus && isPlaying) this.#stop.focus();
    else if (hadFocus && document.activeElement !== this.#play) this.#play.focus();
    this.#tell(state.kind);
  }

  #start(): void {
    const order = this.#form.order();
    if (order) this.#begin(order);
  }

  #begin(order: CaptureOrder): void {
    try {
      this.#view.bench.capture.start(order);
    } catch (error) {
      setText(this.#fault, error instanceof Error ? error.message : String(error));
    }
  }

  #tell(kind: string): void {
    if (kind === this.#wasKind) return;
    if (kind === "playing") this.#view.say("The tone plays. Escape stops it.");
    if (kind === "idle") this.#view.say("The tone is stopped.");
    if (kind === "found") this.#view.say("The unit is measured.");
    this.#wasKind = kind;
  }

  /** How far the tone is. */
  #drawTone(): boolean {
    const { capture } = this.#view.bench;
    const isPlaying = capture.state.kind === "playing";
    const what = `the tone plays (${lasting(this.#form.toneSeconds)})`;
    this.#running.show(isPlaying ? { done: capture.done, what } : null);
    return isPlaying;
  }
}

const lead =
  "Plays a test tone through the real unit, records what comes back, and works out its response, latency, polarity and dry leak, to stand in the rig for its model.";
const noUnit =
  "There is no pedal with one input and one output in this rig: add it under The rig, then measure it here.";
