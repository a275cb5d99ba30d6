import { el, setText } from "../dom.js";
import type { RigField, RigPart } from "./rigFields.js";

/** Parts of the form as one. */
export function together(className: string, ...parts: readonly RigPart[]): RigPart {
  return {
    node: el("div", { class: className }, ...parts.map(({ node }) => node)),
    get fields(): readonly RigField[] {
      return parts.flatMap(({ fields }) => fields);
    },
    update() {
      for (const part of parts) part.update();
    },
  };
}

/** Fields in columns. */
export const grid = (...parts: readonly RigPart[]): RigPart => together("facts-grid", ...parts);

/** Folded away until it is wanted; opens by itself when something in it is wrong, and says how much. */
export function fold(words: string, hint: string, ...parts: readonly RigPart[]): RigPart {
  const inside = together("fold-parts", ...parts);
  const wrong = el("span", { class: "fault" });
  const node = el(
    "details",
    { class: "rig-fold" },
    el("summary", {}, words, wrong),
    hint ? el("p", { class: "hint" }, hint) : null,
    inside.node,
  );
  let faults = 0;
  return {
    node,
    get fields() {
      return inside.fields;
    },
    update() {
      inside.update();
      const found = inside.fields.filter(({ hasFault }) => hasFault).length;
      if (found > faults) node.open = true;
      faults = found;
      setText(wrong, found === 0 ? "" : `: ${found === 1 ? "one fault" : `${found} faults`}`);
    },
  };
}

/** A part that is there only where it means something. */
export function shownIf(isMeant: () => boolean, part: RigPart): RigPart {
  return {
    node: part.node,
    get fields() {
      return part.node.hidden ? [] : part.fields;
    },
    update() {
      part.node.hidden = !isMeant();
      part.update();
    },
  };
}

/** Parts under a heading of their own. */
export function group(words: string, ...parts: readonly RigPart[]): RigPart {
  const inside = together("fold-parts", ...parts);
  return {
    node: el("fieldset", { class: "rig-group" }, el("legend", {}, words), inside.node),
    get fields() {
      return inside.fields;
    },
    update: () => inside.update(),
  };
}
