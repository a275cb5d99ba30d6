import { powerToDb } from "../dsp/units.js";

/**
 * Energy of the wet parts over that of the dry parts at the buses: 10 log10(E(wet) / E(dry)), in dB, channels added.
 *
 * @param wet  the channels with the dry paths muted, full scale 1
 * @param dry  the channels with the effects muted
 * @returns -Infinity with no wet part, Infinity with no dry part; null when both are silent
 */
export function wetToDryDb(wet: readonly Float32Array[], dry: readonly Float32Array[]): number | null {
  const wetEnergy = energyOf(wet);
  const dryEnergy = energyOf(dry);
  return wetEnergy + dryEnergy > 0 ? powerToDb(wetEnergy / dryEnergy) : null;
}

function energyOf(channels: readonly Float32Array[]): number {
  let energy = 0;
  for (const channel of channels) for (const x of channel) energy += x * x;
  return energy;
}
