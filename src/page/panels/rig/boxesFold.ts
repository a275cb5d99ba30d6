import { valueAt } from "../../../rig/file/dataAt.js";
import type { Path } from "../../../rig/file/yaml.js";
import { type BuyableBox, boxChoices } from "../../../rig/model/rig.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { button } from "../../widgets/button.js";
import { el } from "../../widgets/dom.js";
import { fieldsAt } from "../../widgets/form/fieldsAt.js";
import { fold, grid, group, shownIf, together } from "../../widgets/form/fold.js";
import { choiceField, type RigField, type RigPart } from "../../widgets/form/rigFields.js";
import { listPart } from "./listPart.js";
import { boardFacts } from "./pedalFacts.js";

/** What each kind of box is counted by. */
const sizes: Readonly<Record<BuyableBox, readonly [key: string, label: string]>> = {
  splitter: ["outputs", "outputs"],
  "summing-box": ["inputs", "inputs"],
  mixer: ["pairs", "stereo inputs"],
};

/** Boxes that are in the drawer, and what the others cost. */
export function boxesFold(desk: RigDesk): RigPart {
  const { text } = fieldsAt(
    desk,
    () => [],
    () => "The rig",
  );
  return fold(
    "Boxes on hand, prices",
    "Splitters, summing boxes and mixers that wirings need: what is in the drawer need not be bought.",
    grid(text("currency", ["currency"], "three capitals; empty: EUR")),
    group("In the drawer", onHand(desk)),
    ...boxChoices.map((kind) => sold(desk, kind)),
  );
}

function onHand(desk: RigDesk): RigPart {
  return listPart(desk, {
    path: () => ["onHand"],
    add: "Add a box on hand",
    fresh: () => ({ box: "splitter" }),
    called: (n) => `box ${n + 1} in the drawer`,
    row: (path, owner) => {
      const { number, yesNo, place } = fieldsAt(desk, path, owner);
      const kind = () => valueAt(desk.data, [...path(), "box"]);
      const box = place("box", ["box"]);
      const pick = choiceField(
        desk,
        box,
        boxChoices.map((word) => [word, word.replaceAll("-", " ")]),
        {
          // What goes with another kind of box only would be a fault.
          onSet: (word) =>
            desk.edit(`${owner()}, box`, [
              { set: box.path(), to: word },
              ...["outputs", "inputs", "pairs", "buffered", "mutes"].map((key) => ({
                set: [...path(), key],
                to: undefined,
              })),
            ]),
        },
      );
      return grid(
        pick,
        number("how many", "", ["count"], "empty: 1"),
        ...boxChoices.map((word) => {
          const [key, label] = sizes[word];
          return shownIf(() => kind() === word, number(label, "", [key], "empty: 2"));
        }),
        shownIf(() => kind() === "splitter", yesNo("buffered", ["buffered"], true)),
        shownIf(() => kind() !== "summing-box", yesNo("has mutes", ["mutes"], false)),
      );
    },
  });
}

/** What one kind of box costs: a map for whatever size, or a list of the sizes that are sold. */
function sold(desk: RigDesk, kind: BuyableBox): RigPart {
  const base: Path = ["boxes", kind];
  const words = kind.replaceAll("-", " ");
  const list = (): readonly unknown[] | null => {
    const value = valueAt(desk.data, base);
    return Array.isArray(value) ? value : null;
  };
  const rows: RigPart[] = [];
  const node = el("div", { class: "rig-list-box" });
  const rowAt = (n: number): RigPart => {
    const path = () => (list() ? [...base, n] : base);
    const owner = () => (list() ? `A ${words} to buy, size ${n + 1}` : `A ${words} to buy`);
    const [key, label] = sizes[kind];
    const { number, yesNo } = fieldsAt(desk, path, owner);
    const out = button(
      "Take this size out",
      () => {
        const left = list()?.length ?? 0;
        desk.edit(`taking out: ${owner()}`, [{ set: left > 1 ? path() : base, to: undefined }]);
        adder.focus();
      },
      "quiet",
    );
    const facts = boardFacts(desk, path, owner);
    const part = together(
      "sold",
      grid(
        number(label, "", [key], "that it is sold with; empty: any"),
        ...facts,
        ...(kind === "summing-box" ? [] : [yesNo("has mutes", ["mutes"], false)]),
      ),
    );
    part.node.append(out);
    return {
      ...part,
      get fields(): readonly RigField[] {
        return part.fields;
      },
      update() {
        part.update();
        out.setAttribute("aria-label", `Take this size out: ${owner()}`);
        out.hidden = list() === null;
      },
    };
  };
  const adder = button(`Add a size of ${words}`, () => {
    const at = list()?.length ?? 1;
    const isFirst = valueAt(desk.data, base) === undefined;
    desk.edit(`a size of ${words}`, [
      ...(isFirst ? [{ into: base, at: 0, add: {} }] : []),
      { into: base, at, add: {} },
    ]);
    rows[at]?.fields[0]?.focus();
  });
  node.append(adder);
  const inside: RigPart = {
    node,
    get fields() {
      return rows.flatMap(({ fields }) => fields);
    },
    update() {
      const count = Math.max(1, list()?.length ?? 1);
      for (let n = rows.length; n < count; n++) {
        rows.push(rowAt(n));
        adder.before(rows[n].node);
      }
      for (const row of rows.splice(count)) row.node.remove();
      for (const row of rows) row.update();
    },
  };
  return group(`A ${words}, when it must be bought`, inside);
}
