import { modelOf } from "../pedals/models.js";
import { pedalBoxes } from "./parts.js";
import type { PedalBox, Wiring } from "./wiring.js";

/** How far the second's LFO is turned to see what chance may give: a quarter round each. */
const quarters = [90, 180, 270] as const;

/**
 * Second units whose LFO runs by itself beside the first's: no cable keeps the two in step, so how they stand to each
 * other is chance, and another at every evening. Common practice, no source.
 */
const seconds = (wiring: Wiring): readonly PedalBox[] => {
  const boxes = pedalBoxes(wiring);
  return boxes.filter(
    (box, n) => swings(box) && boxes.findIndex(({ pedal }) => pedal.name === box.pedal.name) < n,
  );
};

const swings = ({ pedal }: PedalBox): boolean =>
  modelOf(pedal.model).changesInTime && typeof pedal.settings.phaseDegrees === "number";

/** Names of the pedals of which two swing by themselves. */
export const freePairs = (wiring: Wiring): readonly string[] =>
  seconds(wiring).map(({ pedal }) => pedal.name);

/** The same wiring with every second LFO a quarter, a half and three quarters of a round further; none where none is free. */
export function otherPhases(wiring: Wiring): readonly Wiring[] {
  const free = new Set(seconds(wiring).map(({ id }) => id));
  if (free.size === 0) return [];
  return quarters.map((by) => ({
    cables: wiring.cables,
    boxes: wiring.boxes.map((box) =>
      box.kind === "pedal" && free.has(box.id) ? { ...box, pedal: turned(box.pedal, by) } : box,
    ),
  }));
}

const turned = (pedal: PedalBox["pedal"], by: number): PedalBox["pedal"] => ({
  ...pedal,
  settings: { ...pedal.settings, phaseDegrees: (Number(pedal.settings.phaseDegrees) + by) % 360 },
});
