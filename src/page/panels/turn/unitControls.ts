import { pedalBounds } from "../../../rig/model/bounds.js";
import type { Pedal } from "../../../rig/model/rig.js";
import type { Bench } from "../../contract/bench.js";
import { el } from "../../widgets/dom.js";
import { NumberControl } from "../../widgets/numberControl.js";
import type { Control } from "../../widgets/settingLabel.js";
import { switchControl } from "./settingControl.js";

type NumberKey = keyof typeof pedalBounds;
type SwitchKey = "canGoFullyWet" | "invertsPolarity";

/** What a pedal does as a mono unit: latency, trim, polarity, and whether it goes fully wet. */
export function unitControls(bench: Bench, owner: string): Control<Pedal> {
  const number = (key: NumberKey, name: string, unit: string, hint: string) => {
    const names = { name, unit, owner, hint };
    const control = new NumberControl(pedalBounds[key], names, (value) =>
      bench.setUnit(owner, { [key]: value }),
    );
    return { node: control.node, set: (pedal: Pedal) => control.set(pedal[key]) };
  };
  const toggle = (key: SwitchKey, name: string, hint?: string) => {
    const control = switchControl({ name, unit: "", owner, hint }, (on) =>
      bench.setUnit(owner, { [key]: on }),
    );
    return { node: control.node, set: (pedal: Pedal) => control.set(pedal[key]) };
  };
  const controls = [
    toggle("canGoFullyWet", "can go fully wet", "by kill-dry, or its mix at maximum"),
    number("dryLeakDb", "dry leak", "dB", "dry sound that stays where it cannot go fully wet"),
    number("latencyMs", "latency", "ms", "delay of all that goes through it"),
    number("levelDb", "level", "dB", "trim of its output"),
    toggle("invertsPolarity", "inverts polarity"),
  ];
  const heading = el("p", { class: "subhead" }, "As a mono unit");
  return {
    node: el("div", { class: "as-unit" }, heading, ...controls.map(({ node }) => node)),
    set(pedal) {
      for (const control of controls) control.set(pedal);
    },
  };
}
