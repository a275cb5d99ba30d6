import { type AssembledChains, assembledChains, type ChainLoops, plainChains } from "./chains.js";
import { type AssembledFourier, assembledFourier, type FourierLoops, plainFourier } from "./fourier.js";
import type { RoomArrays } from "./places.js";
import { type AssembledRates, assembledRates, plainRates, type RateLoops } from "./rates.js";
import { type AssembledSpectra, assembledSpectra, plainSpectra, type SpectrumLoops } from "./spectra.js";
import { type AssembledTaps, assembledTaps, plainTaps, type TapLoops } from "./taps.js";

/**
 * The inner loops that profiles name. Each has two forms that give the same bits: plain, and
 * with SIMD in `assembly`. A loop is asked for once, with the arrays that it works on, and then run.
 */
export interface Loops extends FourierLoops, SpectrumLoops, RateLoops, ChainLoops, TapLoops {}

/** What `assembly` exports: the same on places in memory. */
export interface AssembledLoops
  extends AssembledFourier,
    AssembledSpectra,
    AssembledRates,
    AssembledChains,
    AssembledTaps {}

export const plainLoops: Loops = {
  ...plainFourier,
  ...plainSpectra,
  ...plainRates,
  ...plainChains,
  ...plainTaps,
};

/** @param room  where arrays of these loops are; what they are given must lie there too */
export const assembledLoops = (loops: AssembledLoops, room: RoomArrays): Loops => ({
  ...assembledFourier(loops, room),
  ...assembledSpectra(loops, room),
  ...assembledRates(loops, room),
  ...assembledChains(loops, room),
  ...assembledTaps(loops, room),
});
