import type { BenchChange } from "../../contract/bench.js";
import { button } from "../../widgets/button.js";
import { el, fill } from "../../widgets/dom.js";
import type { Panel, View } from "../view.js";
import { startTrial } from "./startTrial.js";
import type { Trial, TrialPlan } from "./trial.js";
import { trialResult } from "./trialResult.js";
import { TrialRun } from "./trialRun.js";
import { TrialSetup } from "./trialSetup.js";

/** A blind trial: set up, run with the rest of the page put away, and told. */
export class TrialPanel implements Panel {
  readonly children: readonly HTMLElement[];
  readonly #view: View;
  readonly #setup: TrialSetup;
  readonly #body: HTMLElement;

  constructor(view: View) {
    this.#view = view;
    this.#setup = new TrialSetup(view, (plan) => this.#start(plan));
    this.#body = el("div", {}, this.#setup.node);
    this.children = [el("p", { class: "lead" }, lead), this.#body];
  }

  update(change: BenchChange): void {
    if (change !== "fault") this.#setup.update();
  }

  #start(plan: TrialPlan): void {
    const { bench, stage } = this.#view;
    const before = bench.player.chosen;
    const { loop, folded } = bench.player;
    const trial = startTrial(plan, {
      started: new Date().toISOString(),
      rig: bench.rig.name,
      take: bench.takeName,
      settings: bench.desk.text,
      loop: loop.on ? { from: loop.from, to: loop.to } : null,
      folded,
    });
    const end = () => this.#end(trial, before);
    const run = new TrialRun(bench, trial, end);
    if (folded)
      run.node.append(el("p", { class: "hint" }, "Folded to mono: both sides play (left + right) / 2."));
    run.node.append(button("Stop the trial, without a result", end, "quiet"));
    stage.enter(run);
    if (!bench.player.playing) bench.player.play();
    run.node.querySelector("input")?.focus();
  }

  /** @param before  what was heard before the trial, and is again */
  #end({ result }: Trial, before: string): void {
    const { bench, stage } = this.#view;
    stage.leave();
    bench.player.choose(before);
    if (result)
      fill(
        this.#body,
        trialResult(this.#view, result, () => this.#again()),
      );
    requestAnimationFrame(() => {
      this.#body.closest("section")?.scrollIntoView({ behavior: "instant" });
      this.#body.querySelector<HTMLElement>("h3, button")?.focus({ preventScroll: true });
    });
  }

  #again(): void {
    this.#setup.update();
    fill(this.#body, this.#setup.node);
    this.#setup.node.querySelector("input")?.focus();
  }
}

const lead = "Whether you hear a difference, or like one better, when you do not know which is which.";
