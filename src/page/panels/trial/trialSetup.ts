import type { TrialPlan } from "../../contract/bench.js";
import { el, newId, setText } from "../../widgets/dom.js";
import { checkBox, choiceLine } from "../../widgets/slider.js";
import { nameOf, reportOf, type View } from "../view.js";
import { mostTrials } from "./startTrial.js";
import { borrowed, neededWords } from "./trialWords.js";

/** The form that fixes a trial before it starts. */
export function trialSetup(
  view: View,
  onStart: (plan: TrialPlan) => void,
): { node: HTMLElement; update(): void } {
  const { bench } = view;
  let kind: TrialPlan["kind"] = "tell-apart";
  const kinds = choiceLine<TrialPlan["kind"]>(
    "The question",
    [
      ["tell-apart", "Can you tell them apart?"],
      ["prefer", "Which do you prefer?"],
    ],
    (value) => {
      kind = value;
      explain();
    },
  );
  kinds.set(kind);
  const boxes = bench.player.choices.map((id) => ({ id, ...checkBox("", explainLater) }));
  const id = newId("trials");
  const trials = el("input", { type: "number", id, min: 1, max: mostTrials, step: 1, value: 12 });
  trials.addEventListener("input", explainLater);
  const says = el("p", { class: "hint" });
  const fault = el("p", { class: "fault", role: "alert" });
  const start = el("button", { type: "submit", class: "strong" }, "Start the trial");
  const form = el(
    "form",
    { class: "trial-setup", novalidate: true },
    kinds.node,
    el(
      "fieldset",
      { class: "which" },
      el("legend", {}, "Between which"),
      el("div", { class: "options" }, ...boxes.map(({ node }) => node)),
    ),
    el("p", { class: "count" }, el("label", { for: id }, "Number of trials"), trials),
    says,
    start,
    fault,
    el("p", { class: "small" }, borrowed),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const plan = { kind, routings: chosen(), trials: trials.valueAsNumber };
    const wrong = faultOf(plan);
    setText(fault, wrong ?? "");
    if (wrong === null) onStart(plan);
  });

  const chosen = () => boxes.filter(({ input }) => input.checked).map((box) => box.id);
  const explain = () => {
    const count = trials.valueAsNumber;
    const whole = Number.isInteger(count) && count > 0 && count <= mostTrials;
    const pairs =
      chosen().length > 2 ? " Each trial takes two of those chosen, all pairs equally often." : "";
    const apart = "A, B and X are hidden routings; X is the same as A or as B. You say which. ";
    const asked =
      kind === "tell-apart" ? apart : "A and B are two hidden routings. You say which you prefer. ";
    setText(says, `${asked}${kind === "tell-apart" && whole ? neededWords(count) : ""}${pairs}`.trim());
  };
  function explainLater(): void {
    explain();
  }
  const usual = new Set([bench.player.chosen, reportOf(view).reference, ...bench.player.choices].slice(0, 2));
  for (const box of boxes) box.input.checked = usual.has(box.id);
  const update = () => {
    for (const box of boxes) setText(labelOf(box.node), ` ${nameOf(view, box.id)}`);
    start.disabled = bench.player.lengthSeconds === 0 || bench.progress !== null;
    explain();
  };
  update();
  return { node: form, update };
}

/** The words behind a check box. */
function labelOf(node: HTMLElement): Element {
  const found = node.querySelector("span");
  if (found) return found;
  const words = el("span", {});
  node.append(words);
  return words;
}

function faultOf({ routings, trials }: TrialPlan): string | null {
  if (routings.length < 2) return "Choose two routings or more.";
  if (!Number.isInteger(trials) || trials < 1 || trials > mostTrials)
    return `The number of trials is a whole number from 1 to ${mostTrials}.`;
  return null;
}
