import type { RigFault } from "../../../rig/file/faults.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { el, fill, newId } from "../../widgets/dom.js";
import { faultLine } from "../../widgets/form/faultLine.js";

/** The file itself, for those who write it: as it is typed, whatever is wrong with it. */
export function textEditor(desk: RigDesk) {
  const id = newId("rig-text");
  const area = el("textarea", { id, rows: 24, spellcheck: "false", autocomplete: "off", wrap: "off" });
  const faults = el("ul", { id: `${id}-faults` });
  let isTyping = false;
  area.addEventListener("input", () => {
    isTyping = true;
  });
  area.addEventListener("change", () => {
    isTyping = false;
    desk.replace("typing", area.value);
  });
  area.addEventListener("blur", () => {
    isTyping = false;
  });
  const node = el(
    "details",
    { class: "rig-fold rig-text" },
    el("summary", {}, "The rig file as text"),
    el(
      "label",
      { for: id },
      "Every change above stands here, and what is typed here holds as soon as you leave the field.",
    ),
    area,
    faults,
  );
  /** The cursor where the fault is, the rest of its line marked. */
  const goTo = ({ line = 1, column = 1 }: RigFault) => {
    node.open = true;
    const lines = area.value.split("\n");
    const from = lines.slice(0, line - 1).reduce((sum, each) => sum + each.length + 1, 0);
    const length = lines[line - 1]?.length ?? 0;
    area.focus();
    area.setSelectionRange(from + Math.min(column - 1, length), from + length);
    area.scrollTop = (line - 1) * (area.scrollHeight / lines.length) - area.clientHeight / 2;
    area.scrollIntoView({ block: "nearest" });
  };
  return {
    node,
    goTo,
    update() {
      const text = desk.text.replace(/\r\n?/g, "\n");
      if (!isTyping && area.value !== text) area.value = text;
      area.setAttribute("aria-invalid", String(desk.faults.length > 0));
      if (desk.faults.length > 0) area.setAttribute("aria-describedby", faults.id);
      else area.removeAttribute("aria-describedby");
      fill(faults, ...desk.faults.map((fault) => el("li", {}, ...faultLine(fault, () => goTo(fault)))));
    },
  };
}
