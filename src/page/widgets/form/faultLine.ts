import type { RigFault } from "../../../rig/file/faults.js";
import { button } from "../button.js";

/** `Line 4: what is wrong`, and a button that goes there. */
export function faultLine(fault: RigFault, go: () => void): readonly (HTMLElement | string)[] {
  const { line, message } = fault;
  const place = line === undefined ? "" : `Line ${line}: `;
  const goThere = button("Go there", go, "quiet");
  goThere.setAttribute("aria-label", `Go there: ${place}${message}`);
  return [`${place}${message} `, goThere];
}
