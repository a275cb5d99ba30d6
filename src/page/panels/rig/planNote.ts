import { asPlacedId } from "../../../rig/routings/routing.js";
import { ended } from "../../../text/words.js";
import { el, setText } from "../../widgets/dom.js";
import type { PagePart, View } from "../view.js";

/** Where the plan of one's own is to be heard, and what becomes in it of units without a place. */
export function planNote({ bench }: View): PagePart {
  const node = el("p", { class: "hint" });
  const update = () => {
    const plan = bench.report?.routings.find(({ id }) => id === asPlacedId);
    const reason = plan?.reason ? ` ${ended(plan.reason)}` : "";
    setText(node, plan ? `Your plan stands among the choices as "${plan.label}".${reason}` : "");
    node.hidden = !plan;
  };
  update();
  return { node, update };
}
