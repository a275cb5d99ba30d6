import { pedalBounds } from "../../../rig/model/bounds.js";
import type { Pedal } from "../../../rig/model/rig.js";
import { pedalModels } from "../../../rig/pedals/models.js";
import { el } from "../../widgets/dom.js";
import { numberControl } from "../../widgets/numberControl.js";
import type { View } from "../view.js";
import { settingControl, switchControl } from "./settingControl.js";

export interface Card {
  readonly node: HTMLElement;
  update(): void;
}

/** The settings of one pedal; of a mono unit also what it does in a parallel branch. */
export function pedalCard(view: View, name: string, isUnit: boolean): Card {
  const { bench } = view;
  const now = (): Pedal | undefined => bench.rig.pedals.find((pedal) => pedal.name === name);
  const pedal = now();
  const model = pedal ? pedalModels[pedal.model] : undefined;
  const controls = Object.entries(model?.settings ?? {}).map(([key, setting]) => ({
    key,
    ...settingControl(key, setting, name, (value) => bench.setSetting(name, key, value)),
  }));
  const unit = isUnit ? unitControls(view, name) : null;
  const update = () => {
    const current = now();
    if (!current) return;
    for (const { key, set } of controls) set(current.settings[key]);
    unit?.set(current);
  };
  update();
  return {
    node: el(
      "fieldset",
      { class: "card" },
      el("legend", {}, name, el("small", {}, ` ${(model?.kind ?? "").toLowerCase()}`)),
      ...controls.map(({ node }) => node),
      unit?.node,
    ),
    update,
  };
}

function unitControls({ bench }: View, owner: string): { node: HTMLElement; set(pedal: Pedal): void } {
  const latencyMs = numberControl(
    pedalBounds.latencyMs,
    { name: "latency", unit: "ms", owner, says: "delay of all that goes through it" },
    (value) => bench.setUnit(owner, { latencyMs: value }),
  );
  const levelDb = numberControl(
    pedalBounds.levelDb,
    { name: "level", unit: "dB", owner, says: "trim of its output" },
    (value) => bench.setUnit(owner, { levelDb: value }),
  );
  const wet = switchControl(
    { name: "can go fully wet", unit: "", owner, says: "by kill-dry, or its mix at maximum" },
    (on) => bench.setUnit(owner, { canGoFullyWet: on }),
  );
  const dryLeakDb = numberControl(
    pedalBounds.dryLeakDb,
    { name: "dry leak", unit: "dB", owner, says: "dry sound that stays where it cannot go fully wet" },
    (value) => bench.setUnit(owner, { dryLeakDb: value }),
  );
  const polarity = switchControl({ name: "inverts polarity", unit: "", owner }, (on) =>
    bench.setUnit(owner, { invertsPolarity: on }),
  );
  return {
    node: el(
      "div",
      { class: "as-unit" },
      el("p", { class: "subhead" }, "As a mono unit"),
      wet.node,
      dryLeakDb.node,
      latencyMs.node,
      levelDb.node,
      polarity.node,
    ),
    set(pedal) {
      latencyMs.set(pedal.latencyMs);
      levelDb.set(pedal.levelDb);
      wet.set(pedal.canGoFullyWet);
      dryLeakDb.set(pedal.dryLeakDb);
      polarity.set(pedal.invertsPolarity);
    },
  };
}
