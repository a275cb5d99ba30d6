import { channelsOf, type HeldTake } from "../../../sound/audio/takeSource.js";

/** A take as 24 bits hold it. */
interface In24Bits {
  readonly sides: readonly Float32Array[];
  /** To be multiplied with, a power of two: 1 unless it goes over full scale. */
  readonly scale: number;
  /** True when 24 bits do not hold it exactly. */
  readonly isRounded: boolean;
}

export function in24Bits(take: HeldTake): In24Bits {
  const given = channelsOf(take);
  let peak = 0;
  for (const side of given) for (const x of side) peak = Math.max(peak, Math.abs(x));
  const scale = peak > 1 ? 2 ** Math.ceil(Math.log2(peak)) : 1;
  const sides = scale === 1 ? given : given.map((side) => side.map((x) => x / scale));
  return { sides, scale, isRounded: sides.some((side) => side.some((x) => !Number.isInteger(x * 2 ** 23))) };
}

/** Letters of base64 for all takes. More make a page that no mail takes (25 MB, common practice), and are left out. */
export const mostTravelLetters = 20e6;
