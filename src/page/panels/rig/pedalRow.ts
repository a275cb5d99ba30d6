import { pedalTwice, renamedPedal, withoutPedal } from "../../../rig/file/pedalEdits.js";
import { pedalModels } from "../../../rig/pedals/models.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { button } from "../../widgets/button.js";
import { el, setText } from "../../widgets/dom.js";
import { choiceField, type RigField, textField, valueAt } from "./rigFields.js";
import { jackWords } from "./rigWords.js";

/** A pedal of the chain: what it is, its jacks, and where it stands. */
export interface PedalRow {
  readonly node: HTMLElement;
  readonly fields: readonly RigField[];
  /** @param role  what the split makes of it, in words */
  update(desk: RigDesk, role: string): void;
}

/** Kinds of pedal by the word of the rig file, in words. */
export const modelWords: readonly (readonly [string, string])[] = Object.entries(pedalModels).map(
  ([word, { kind }]) => [word, kind.toLowerCase() === word ? kind : `${kind}: ${word}`],
);

export function pedalRow(desk: RigDesk, index: number, count: number): PedalRow {
  const path = ["pedals", index];
  const owner = String(valueAt(desk.data, [...path, "name"]) ?? `Pedal ${index + 1}`);
  const rename = (name: string) => desk.edit(`the name of ${owner}`, renamedPedal(desk.data, index, name));
  const fields = [
    textField(desk, { path: [...path, "name"], label: "name", owner }, rename),
    modelField(desk, index, owner),
    choiceField(desk, { path: [...path, "jacks"], label: "jacks", owner }, jackWords),
  ];
  const role = el("p", { class: "role" });
  const act = (words: string, name: string, on: boolean, edit: () => void) => {
    const made = button(words, edit, "quiet");
    made.disabled = !on;
    made.setAttribute("aria-label", `${owner}: ${name}`);
    made.setAttribute("data-field", `${name} ${index}`);
    return made;
  };
  const move = (to: number) => desk.edit(`the place of ${owner}`, [{ move: ["pedals"], from: index, to }]);
  const actions = el(
    "div",
    { class: "row-actions" },
    act("\u2191", "earlier in the chain", index > 0, () => move(index - 1)),
    act("\u2193", "later in the chain", index < count - 1, () => move(index + 1)),
    act("Twice", "the same once more", true, () => desk.edit(`${owner} twice`, pedalTwice(desk.data, index))),
    act("Take out", "take it out", true, () =>
      desk.edit(`taking ${owner} out`, withoutPedal(desk.data, index)),
    ),
  );
  return {
    node: el("li", { class: "pedal-row" }, ...fields.map(({ node }) => node), role, actions),
    fields,
    update(now, words) {
      for (const each of fields) each.update(now);
      setText(role, words);
    },
  };
}

/** Another model has other settings: those that it knows too are kept. */
function modelField(desk: RigDesk, index: number, owner: string): RigField {
  const path = ["pedals", index, "model"];
  const chosen = choiceField(desk, { path, label: "kind", owner }, modelWords);
  const list = chosen.node.querySelector("select");
  list?.addEventListener(
    "change",
    (event) => {
      event.stopImmediatePropagation();
      const known = pedalModels[list.value]?.settings ?? {};
      const settings = valueAt(desk.data, ["pedals", index, "settings"]);
      const gone = Object.keys(typeof settings === "object" && settings ? settings : {}).filter(
        (key) => !(key in known),
      );
      desk.edit(`${owner}, kind`, [
        { set: path, to: list.value },
        ...gone.map((key) => ({ set: ["pedals", index, "settings", key], to: undefined })),
      ]);
    },
    { capture: true },
  );
  return chosen;
}
