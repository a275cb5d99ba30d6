import { button } from "../widgets/button.js";
import { checkBox } from "../widgets/checkBox.js";
import { el } from "../widgets/dom.js";

const keys: readonly (readonly [keys: readonly string[], does: string])[] = [
  [["Space"], "play and pause"],
  [["1", "to", "9"], "choose a routing; in a trial 1 is A, 2 is B, 3 is X"],
  [["0"], "choose the dry take"],
  [["\u2190", "\u2192"], "back and on by 2 seconds; with Shift by 10"],
  [["["], "the loop begins here"],
  [["]"], "the loop ends here"],
  [["?"], "this list"],
  [["Alt", "with", "\u2191", "\u2193"], "in the rig: the pedal goes earlier or later in the chain"],
];
/** Between keys of one line. */
const between: ReadonlySet<string> = new Set(["to", "with"]);

export interface KeyHelp {
  readonly node: HTMLDialogElement;
  /** False once the person has turned the keys off. */
  readonly keysOn: boolean;
  open(): void;
}

/** The list of keys, and a way to turn them off for those whose speech or switch input types letters. */
export function keyHelp(): KeyHelp {
  const on = checkBox("These keys are on", () => {});
  on.input.checked = true;
  const node = el(
    "dialog",
    { class: "help", "aria-labelledby": "help-heading" },
    el("h2", { id: "help-heading" }, "Keys"),
    el("dl", {}, ...keys.flatMap(keyItem)),
    el("p", { class: "hint" }, restWords),
    on.node,
    button("Close", () => node.close(), "strong"),
  );
  return {
    node,
    get keysOn() {
      return on.input.checked;
    },
    open() {
      if (!node.open) node.showModal();
    },
  };
}

const keyItem = ([names, does]: (typeof keys)[number]): readonly HTMLElement[] => [
  el("dt", {}, ...names.map((name) => (between.has(name) ? ` ${name} ` : el("kbd", {}, name)))),
  el("dd", {}, does),
];

const restWords =
  "All but the last rest while you type in a field or list, and with Ctrl, Alt or Command held.";
