import { pedalModels } from "../../../rig/pedals/models.js";
import type { Bench } from "../../contract/bench.js";
import { el } from "../../widgets/dom.js";
import { more } from "../../widgets/more.js";
import type { PagePart } from "../view.js";
import { settingControl } from "./settingControl.js";
import { unitControls } from "./unitControls.js";

/** The settings of one pedal, the main ones first; of a mono unit also what it does in a parallel branch. */
export function pedalCard(bench: Bench, name: string, isUnit: boolean): PagePart {
  const now = () => bench.rig.pedals.find((pedal) => pedal.name === name);
  const pedal = now();
  const model = pedal ? pedalModels[pedal.model] : undefined;
  const controls = Object.entries(model?.settings ?? {}).map(([key, setting]) => ({
    key,
    isMain: setting.isMain === true,
    ...settingControl(key, setting, name, (value) => bench.setSetting(name, key, value)),
  }));
  const unit = isUnit ? unitControls(bench, name) : null;
  const update = () => {
    const current = now();
    if (!current) return;
    for (const { key, set } of controls) set(current.settings[key]);
    unit?.set(current);
  };
  update();
  const legend = el("legend", {}, name, el("small", {}, ` ${(model?.kind ?? "").toLowerCase()}`));
  const [first, rest] = [true, false].map((isMain) =>
    controls.filter((control) => control.isMain === isMain).map(({ node }) => node),
  );
  const folded = rest.length > 0 || unit ? more(name, ...rest, unit?.node) : null;
  return { node: el("fieldset", { class: "card" }, legend, ...first, folded), update };
}
