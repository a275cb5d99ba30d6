import { centre } from "../../widgets/typeset.js";

const octavesHz = [63, 125, 250, 500, 1000, 2000, 4000, 8000, 16_000];

/** Place of a frequency on an axis that gives every octave the same room: octaves from 1 kHz. */
export const octavesFrom1k = (hz: number): number => Math.log2(hz / 1000);

/** A frequency axis with the octave centres as ticks; every other one where there is little room. */
export function frequencyAxis(width: number, domainHz: readonly [number, number], label: string) {
  const ticks = octavesHz.filter((_, n) => width > 420 || n % 2 === 0);
  return {
    domain: domainHz.map(octavesFrom1k),
    ticks: ticks.map(octavesFrom1k),
    tickFormat: (_place: number, n: number) => centre(ticks[n]),
    label,
    labelAnchor: "center",
    labelArrow: "none",
  } as const;
}
