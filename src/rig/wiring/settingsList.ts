import type { SettingValue } from "../../sound/dsp/kernel.js";
import type { Pedal, Rig } from "../model/rig.js";
import { modelOf } from "../pedals/models.js";
import type { MixerBox, PedalBox, SplitterBox, Wiring } from "./wiring.js";

/** One thing to set when a wiring is built. */
export interface SheetSetting {
  /** Label of the box. */
  readonly box: string;
  /** The channel or output that it is of; null for the box as a whole. */
  readonly jack: string | null;
  /** `gainDb`, `pan`, `muted`, `fullyWet`, `killDry`, or the key of a knob that stands otherwise than in the rig. */
  readonly key: string;
  readonly value: SettingValue;
}

/**
 * All that is to be set beside plugging in: every mixer channel's level, pan and mute, every mute of a splitter, which
 * units run fully wet, and every knob that differs from the rig.
 */
export function settingsOf(wiring: Wiring, rig: Rig): readonly SheetSetting[] {
  return wiring.boxes.flatMap((box) => {
    switch (box.kind) {
      case "mixer":
        return channels(box);
      case "splitter":
        return mutes(box);
      case "pedal":
        return knobs(box, rig);
      default:
        return [];
    }
  });
}

const channels = ({ label, inputs }: MixerBox): readonly SheetSetting[] =>
  inputs.flatMap(({ jack, gainDb, pan, muted }) => [
    { box: label, jack, key: "gainDb", value: gainDb },
    { box: label, jack, key: "pan", value: pan },
    ...(muted === undefined ? [] : [{ box: label, jack, key: "muted", value: muted }]),
  ]);

const mutes = ({ label, muted = [] }: SplitterBox): readonly SheetSetting[] =>
  muted.map((value, n) => ({ box: label, jack: `out ${n + 1}`, key: "muted", value }));

/** A dry sound that stays at unity goes by a kill-dry alone. */
const wettest = ({ dryPath, canGoFullyWet }: Pedal): string =>
  dryPath === "unity" && canGoFullyWet ? "killDry" : "fullyWet";

/**
 * A pedal that the rig does not hold under its name is another one: all its knobs are to be set. One that shapes its
 * whole input has no mix that could be set to fully wet.
 */
function knobs({ label, pedal, fullyWet: isWetBranch }: PedalBox, rig: Rig): readonly SheetSetting[] {
  const fullyWet = isWetBranch && modelOf(pedal.model).additive;
  const own = rig.pedals.find(({ name }) => name === pedal.name);
  const differing = Object.entries(pedal.settings).filter(
    ([key, value]) => own?.settings[key] !== value && !(fullyWet && key === "mix"),
  );
  return [
    ...(fullyWet ? [{ box: label, jack: null, key: wettest(pedal), value: pedal.canGoFullyWet }] : []),
    ...differing.map(([key, value]) => ({ box: label, jack: null, key, value })),
  ];
}
