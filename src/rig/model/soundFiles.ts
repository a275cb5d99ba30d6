import type { SettingValue } from "../../sound/dsp/kernel.js";
import { pedalModels } from "../pedals/models.js";
import type { Pedal, Rig } from "./rig.js";

type Written = Readonly<Record<string, SettingValue>>;

/** Sound files that a rig's settings name, each once: of pedals, their alternatives, other units and hand-drawn wirings. */
export function soundFilesOf(rig: Rig): readonly string[] {
  const hand = Object.values(rig.wirings).flatMap(({ boxes }) =>
    Object.values(boxes).flatMap((box) => (box.box === "pedal" ? [box.settings] : [])),
  );
  const written: readonly Written[] = [
    ...rig.pedals.flatMap(settingsOf),
    ...Object.values(rig.stereoUnit),
    ...Object.values(rig.secondUnit),
    ...hand,
  ];
  const named = written.flatMap((settings) =>
    Object.entries(settings).flatMap(([key, value]) =>
      fileKeys.has(key) && typeof value === "string" && value ? [value] : [],
    ),
  );
  return [...new Set(named)];
}

const settingsOf = ({ settings, alternatives }: Pedal): readonly Written[] => [
  settings,
  ...alternatives.flatMap(settingsOf),
];

const fileKeys: ReadonlySet<string> = new Set(
  Object.values(pedalModels).flatMap(({ settings }) =>
    Object.entries(settings).flatMap(([key, setting]) => ("file" in setting ? [key] : [])),
  ),
);
