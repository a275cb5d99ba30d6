import { listAt } from "../../../rig/file/dataAt.js";
import type { RigFault } from "../../../rig/file/faults.js";
import { andList } from "../../../text/words.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { el, fill, setText } from "../../widgets/dom.js";
import { faultLine } from "../../widgets/form/faultLine.js";
import { type RigField, samePath } from "../../widgets/form/rigFields.js";
import type { View } from "../view.js";

/** All that is wrong with the rig, each with a way to where it is mended. */
export function faultList(view: View, fields: () => readonly RigField[], toText: (fault: RigFault) => void) {
  const { say } = view;
  const { desk } = view.bench;
  const list = el("ul", {});
  const heading = el("p", { class: "fault" });
  const node = el("div", { class: "rig-faults" }, heading, list);
  const go = (fault: RigFault) => {
    const field = fields().find(({ path }) => samePath(fault.path, path));
    if (field) show(field);
    else if (!view.goToDrawing?.(fault)) toText(fault);
  };
  return {
    node,
    update() {
      // A rig that is only begun has a sentence of its own.
      const isBegun = listAt(desk.data, ["pedals"]).length === 0;
      const faults = desk.faults.filter(({ path }) => !(isBegun && samePath(path, ["pedals"])));
      node.hidden = faults.length === 0;
      const words = faults.length === 0 ? "" : faultWords(faults.length, desk);
      if (words !== "" && words !== heading.textContent) say(words);
      setText(heading, words);
      fill(list, ...faults.map((fault) => el("li", {}, ...faultLine(fault, () => go(fault)))));
    },
  };
}

function faultWords(count: number, { wholeNames, canEdit }: RigDesk): string {
  const many = count === 1 ? "One thing is" : `${count} things are`;
  const meanwhile = [
    ...(wholeNames.length > 0 ? ["you hear the rig as it was before"] : []),
    ...(canEdit ? [] : ["only the text below can be changed"]),
  ];
  return `${many} wrong with this rig${meanwhile.length > 0 ? `; until ${count === 1 ? "it is" : "they are"} mended, ${andList(meanwhile)}` : ""}.`;
}

/** Opens what a field is folded into, and puts the focus there. */
function show(field: RigField): void {
  for (
    let around = field.node.closest("details");
    around;
    around = around.parentElement?.closest("details") ?? null
  )
    around.open = true;
  field.node.scrollIntoView({ block: "center" });
  field.focus();
}
