import type { TrialPlan } from "../../contract/bench.js";
import { el, fill } from "../../widgets/dom.js";
import { button, section } from "../../widgets/section.js";
import type { Panel, View } from "../view.js";
import { startTrial } from "./startTrial.js";
import { trialResult } from "./trialResult.js";
import { type TrialRun, trialRun } from "./trialRun.js";
import { trialSetup } from "./trialSetup.js";

/** Gives the page over to the trial, and takes it back. */
export interface TrialStage {
  alone(node: HTMLElement): void;
  all(): void;
}
export interface TrialPanel extends Panel {
  /** Null when no trial runs. */
  readonly running: TrialRun | null;
}

/** A blind trial: set up, run with the rest of the page put away, and told. */
export function trialPanel(view: View, stage: TrialStage): TrialPanel {
  const { bench } = view;
  let running: TrialRun | null = null;
  const setup = trialSetup(view, start);
  const body = el("div", {}, setup.node);
  const node = section(
    "trial",
    "Blind trial",
    el(
      "p",
      { class: "lead" },
      "Whether you hear a difference, or like one better, when you do not know which is which.",
    ),
    body,
  );

  function start(plan: TrialPlan): void {
    const before = bench.player.chosen;
    const trial = startTrial(plan, { rig: bench.rig.name, take: bench.takeName });
    const end = () => {
      running = null;
      stage.all();
      bench.player.choose(before);
      if (trial.result) fill(body, trialResult(view, trial.result, again));
      requestAnimationFrame(() => {
        node.scrollIntoView({ behavior: "instant" });
        body.querySelector<HTMLElement>("h3, button")?.focus({ preventScroll: true });
      });
    };
    const run = trialRun(view, trial, end);
    run.node.append(button("Stop the trial, without a result", end, "quiet"));
    running = run;
    stage.alone(run.node);
    if (!bench.player.playing) bench.player.play();
    run.node.querySelector("input")?.focus();
  }
  function again(): void {
    setup.update();
    fill(body, setup.node);
    setup.node.querySelector("input")?.focus();
  }
  return {
    node,
    get running() {
      return running;
    },
    update(change) {
      if (running) running.update();
      else if (change !== "hidden" && change !== "fault") setup.update();
    },
  };
}
