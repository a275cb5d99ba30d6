import { inputJacks, type MixerBox, type Wiring } from "./wiring.js";

/**
 * Jacks of a mixer's returns: the inputs where only effects arrive, as against the dry pair. Every way to such an input
 * leads through a pedal that runs fully wet.
 */
export function returnsOf(mixer: MixerBox, { boxes, cables }: Wiring): readonly string[] {
  const boxOf = new Map(boxes.map((box) => [box.id, box]));
  const isWetOnly = (id: string): boolean => {
    const box = boxOf.get(id);
    return (box?.kind === "pedal" && box.fullyWet) || allWet(cables.filter(({ to }) => to.box === id));
  };
  const allWet = (into: Wiring["cables"]): boolean =>
    into.length > 0 && into.every(({ from }) => isWetOnly(from.box));
  return inputJacks(mixer).filter((jack) =>
    allWet(cables.filter(({ to }) => to.box === mixer.id && to.jack === jack)),
  );
}
