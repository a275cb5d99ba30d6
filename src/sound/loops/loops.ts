import { type AssembledFourier, assembledFourier, type FourierLoops, plainFourier } from "./fourier.js";
import type { RoomArrays } from "./places.js";
import { type AssembledSpectra, assembledSpectra, plainSpectra, type SpectrumLoops } from "./spectra.js";

/** The inner loops that profiles name. Each has two forms that give the same bits: plain, and with SIMD in `assembly`. */
export interface Loops extends FourierLoops, SpectrumLoops {}

/** What `assembly` exports: the same on places in memory. */
export interface AssembledLoops extends AssembledFourier, AssembledSpectra {}

export const plainLoops: Loops = { ...plainFourier, ...plainSpectra };

/** @param room  where arrays of these loops are; what they are given must lie there too */
export const assembledLoops = (loops: AssembledLoops, room: RoomArrays): Loops => ({
  ...assembledFourier(loops, room),
  ...assembledSpectra(loops),
});
