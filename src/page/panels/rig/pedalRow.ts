import { pedalTwice, renamedPedal, withoutPedal } from "../../../rig/file/pedalEdits.js";
import { pedalModels } from "../../../rig/pedals/models.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { button } from "../../widgets/button.js";
import { el, setText } from "../../widgets/dom.js";
import { pedalFacts } from "./pedalFacts.js";
import { choiceField, type RigField, textField, valueAt } from "./rigFields.js";
import { jackWords } from "./rigWords.js";

/** One place of the chain: what pedal stands there, its jacks, and where it may go. */
export interface PedalRow {
  readonly node: HTMLElement;
  readonly fields: readonly RigField[];
  /** @param role  what the split makes of it, in words */
  update(role: string, count: number): void;
  /** The focus goes to what moves this pedal on: a pedal takes it along. */
  focusMoves(): void;
}

/** Kinds of pedal by the word of the rig file, in words. */
export const modelWords: readonly (readonly [string, string])[] = Object.entries(pedalModels).map(
  ([word, { kind }]) => [word, kind.toLowerCase() === word ? kind : `${kind}: ${word}`],
);

/** @param onMoved  told where this pedal went */
export function pedalRow(desk: RigDesk, index: number, onMoved: (to: number) => void): PedalRow {
  const path = ["pedals", index];
  const owner = () => String(valueAt(desk.data, [...path, "name"]) ?? `Pedal ${index + 1}`);
  const rename = (name: string) => {
    const edits = renamedPedal(desk.data, index, name, desk.wholeNames[index]);
    desk.edit(`the name of ${owner()}`, edits);
  };
  const facts = pedalFacts(desk, index, owner);
  const shown = [
    textField(desk, { path: [...path, "name"], label: "name", owner }, rename),
    modelField(desk, index, owner),
    choiceField(desk, { path: [...path, "jacks"], label: "jacks", owner }, jackWords),
  ];
  const role = el("p", { class: "role" });
  const move = (to: number) => {
    desk.edit(`the place of ${owner()}`, [{ move: ["pedals"], from: index, to }]);
    onMoved(to);
  };
  const actions = [
    { look: "Earlier", does: "in the chain", act: () => move(index - 1) },
    { look: "Later", does: "in the chain", act: () => move(index + 1) },
    {
      look: "Twice",
      does: "the same once more in the chain",
      act: () => desk.edit(`${owner()} twice`, pedalTwice(desk.data, index)),
    },
    {
      look: "Take out",
      does: "of the chain",
      act: () => desk.edit(`taking ${owner()} out`, withoutPedal(desk.data, index)),
    },
  ].map(({ look, does, act }) => ({ look, does, node: button(look, act, "quiet") }));
  const [earlier, later] = actions;
  return {
    node: el(
      "li",
      { class: "pedal-row" },
      ...shown.map(({ node }) => node),
      role,
      facts.node,
      el("div", { class: "row-actions" }, ...actions.map(({ node }) => node)),
    ),
    fields: [...shown, ...facts.fields],
    update(words, count) {
      for (const each of [...shown, ...facts.fields]) each.update(desk);
      setText(role, words);
      earlier.node.disabled = index === 0;
      later.node.disabled = index === count - 1;
      for (const { look, does, node } of actions)
        node.setAttribute("aria-label", `${look} ${does}: ${owner()}`);
    },
    focusMoves() {
      (later.node.disabled || document.activeElement === earlier.node ? earlier : later).node.focus();
    },
  };
}

/** Another model has other settings: those that it knows too are kept. */
function modelField(desk: RigDesk, index: number, owner: () => string): RigField {
  const path = ["pedals", index, "model"];
  return choiceField(desk, { path, label: "kind", owner }, modelWords, {
    onSet(model) {
      const known = pedalModels[model]?.settings ?? {};
      const settings = valueAt(desk.data, ["pedals", index, "settings"]);
      const gone = Object.keys(typeof settings === "object" && settings ? settings : {}).filter(
        (key) => !(key in known),
      );
      desk.edit(`${owner()}, kind`, [
        { set: path, to: model },
        ...gone.map((key) => ({ set: ["pedals", index, "settings", key], to: undefined })),
      ]);
    },
  });
}
