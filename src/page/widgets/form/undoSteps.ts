import type { RigDesk } from "../../contract/rigDesk.js";
import { button } from "../button.js";
import { setText } from "../dom.js";

/** The last step back, and forth again. */
export function undoSteps(desk: RigDesk) {
  const undo = button("Undo", () => desk.undo());
  const redo = button("Redo", () => desk.redo());
  return {
    nodes: [undo, redo],
    update() {
      setText(undo, desk.undoes === null ? "Undo" : `Undo: ${desk.undoes}`);
      setText(redo, desk.redoes === null ? "Redo" : `Redo: ${desk.redoes}`);
      undo.disabled = desk.undoes === null;
      redo.disabled = desk.redoes === null;
    },
  };
}
