import type { Wiring } from "./wiring.js";

/**
 * The same wiring with the effect of every mono unit silenced and its dry path kept. What a render loses by it is the
 * wet part at the buses. Null when the wiring holds no unit.
 */
export function withUnitsMuted(wiring: Wiring): Wiring | null {
  if (!wiring.boxes.some((box) => box.kind === "pedal" && box.isUnit)) return null;
  return {
    cables: wiring.cables,
    boxes: wiring.boxes.map((box) => (box.kind === "pedal" && box.isUnit ? { ...box, wetMuted: true } : box)),
  };
}
