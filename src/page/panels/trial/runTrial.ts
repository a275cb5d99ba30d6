import { button } from "../../widgets/button.js";
import { el } from "../../widgets/dom.js";
import type { View } from "../view.js";
import { startTrial } from "./startTrial.js";
import type { TrialPlan, TrialResult } from "./trial.js";
import { TrialRun } from "./trialRun.js";

/**
 * Runs a trial with the rest of the page put away. What was heard before is heard again after it.
 * @param onEnd  is given the result, when the page is back; null when the trial was stopped
 */
export function runTrial(
  { bench, stage }: View,
  plan: TrialPlan,
  onEnd: (result: TrialResult | null) => void,
): void {
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
  const end = () => {
    stage.leave();
    bench.player.choose(before);
    onEnd(trial.result);
  };
  const run = new TrialRun(bench, trial, end);
  if (folded)
    run.node.append(el("p", { class: "hint" }, "Folded to mono: both sides play (left + right) / 2."));
  run.node.append(button("Stop the trial, without a result", end, "quiet"));
  stage.enter(run);
  if (!bench.player.playing) bench.player.play();
  run.node.querySelector("input")?.focus();
}

/** Brings back into sight where a trial began, with the focus on its result, or on what starts another. */
export function comeBackTo(body: HTMLElement): void {
  requestAnimationFrame(() => {
    body.closest("section")?.scrollIntoView({ behavior: "instant" });
    body.querySelector<HTMLElement>("h3, button")?.focus({ preventScroll: true });
  });
}
