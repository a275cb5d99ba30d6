import type { Bench } from "../../contract/bench.js";
import { el } from "../../widgets/dom.js";
import type { PagePart } from "../view.js";
import { switchControl } from "./settingControl.js";

const owner = "Loading";

/** Whether cables and inputs are heard. Only where the rig gives the instrument's circuit. */
export function loadingCard(bench: Bench): PagePart {
  const heard = switchControl(
    {
      name: "heard",
      unit: "",
      owner,
      hint: "what cables and inputs do to the instrument and take from boxes",
    },
    (on) => bench.setLoading(on),
  );
  const update = () => heard.set(!bench.rig.leavesLoadingOut);
  update();
  return { node: el("fieldset", { class: "card" }, el("legend", {}, owner), heard.node), update };
}
