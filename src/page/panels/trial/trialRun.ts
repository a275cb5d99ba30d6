import type { Trial } from "../../contract/bench.js";
import { el, fill, setText } from "../../widgets/dom.js";
import { button } from "../../widgets/section.js";
import { volumeSlider } from "../hear/levelControls.js";
import { transport } from "../playing/transport.js";
import type { View } from "../view.js";

type Name = "A" | "B" | "X";

export interface TrialRun {
  readonly node: HTMLElement;
  /** By digit key: 1 is A, 2 is B, 3 is X. */
  chooseKey(digit: string): void;
  update(): void;
}

/**
 * The trial while it runs. Nothing here is made from a routing: names, order, titles and values are the same whatever
 * stands behind them, and the ids go to the player alone.
 */
export function trialRun(view: View, trial: Trial, onEnd: () => void): TrialRun {
  const { player } = view.bench;
  const names: readonly Name[] = trial.plan.kind === "tell-apart" ? ["A", "B", "X"] : ["A", "B"];
  const heard = new Set<Name>();
  const count = el("p", { class: "trial-count", "aria-live": "polite" });
  const answers = names.filter((name) => name !== "X").map((name) => answerButton(name));
  const hint = el("p", { class: "hint" });
  const sounds = names.map((name, n) => {
    const input = el("input", { type: "radio", name: "blind", value: name });
    input.addEventListener("change", () => hear(name));
    return {
      name,
      input,
      node: el("label", { class: "choice" }, input, el("kbd", {}, String(n + 1)), el("span", {}, name)),
    };
  });
  const controls = transport(view);
  const volume = volumeSlider(view);

  function answerButton(name: "A" | "B"): HTMLButtonElement {
    const words = trial.plan.kind === "tell-apart" ? `X is ${name}` : `I prefer ${name}`;
    return button(words, () => give(name), "strong");
  }
  function hear(name: Name): void {
    const id = trial.sounds?.[name];
    if (!id) return;
    player.playBlind(id);
    heard.add(name);
    const hadFocus = sounds.some(({ input }) => input === document.activeElement);
    for (const sound of sounds) {
      sound.input.checked = sound.name === name;
      if (hadFocus && sound.input.checked) sound.input.focus();
    }
    show();
  }
  function give(name: "A" | "B"): void {
    if (heard.size < names.length) return;
    trial.answer(name);
    heard.clear();
    if (trial.sounds) next();
    else onEnd();
  }
  function next(): void {
    setText(count, `Trial ${trial.answered + 1} of ${trial.plan.trials}`);
    hear("A");
    sounds[0].input.focus();
  }
  function show(): void {
    const waiting = heard.size < names.length;
    for (const answer of answers) answer.disabled = waiting;
    const missing = names.filter((name) => !heard.has(name));
    setText(
      hint,
      waiting
        ? `Listen to ${missing.join(" and ")} before you answer.`
        : "Go back and forth as often as you like.",
    );
  }

  const node = el("section", { class: "panel trial-run", "aria-labelledby": "trial-heading" });
  fill(
    node,
    el("h1", { id: "trial-heading" }, "Blind trial"),
    count,
    el("fieldset", { class: "sounds" }, el("legend", {}, "Heard now"), ...sounds.map((sound) => sound.node)),
    controls.node,
    el(
      "fieldset",
      { class: "answers" },
      el("legend", {}, trial.plan.kind === "tell-apart" ? "Which one is X?" : "Which do you prefer?"),
      ...answers,
    ),
    hint,
    volume.node,
    el(
      "p",
      { class: "small" },
      "All sounds are matched in loudness, and every switch is the same: out, a pause, in. Figures wait until the end.",
    ),
  );
  setText(count, `Trial 1 of ${trial.plan.trials}`);
  hear("A");
  return {
    node,
    chooseKey(digit) {
      const sound = sounds[Number(digit) - 1];
      if (sound) hear(sound.name);
    },
    update() {
      controls.update("player");
      volume.update();
    },
  };
}
