import { type AssembledBends, assembledBends, type BendLoops, plainBends } from "./bends.js";
import { type AssembledChains, assembledChains, type ChainLoops, plainChains } from "./chains.js";
import {
  type AssembledDiffusers,
  assembledDiffusers,
  type DiffuserLoops,
  plainDiffusers,
} from "./diffusers.js";
import { type AssembledEchoes, assembledEchoes, type EchoLoops, plainEchoes } from "./echoes.js";
import { type AssembledFourier, assembledFourier, type FourierLoops, plainFourier } from "./fourier.js";
import { type AssembledHall, assembledHall, type HallLoops, plainHall } from "./hall.js";
import { type AssembledMixes, assembledMixes, type MixLoops, plainMixes } from "./mixes.js";
import { type AssembledPacking, assembledPacking, type PackLoops, plainPacking } from "./packing.js";
import { type AssembledPeaks, assembledPeaks, type PeakLoops, plainPeaks } from "./peaks.js";
import type { RoomArrays } from "./places.js";
import { type AssembledPlate, assembledPlate, type PlateLoops, plainPlate } from "./plate.js";
import { type AssembledRates, assembledRates, plainRates, type RateLoops } from "./rates.js";
import { type AssembledReads, assembledReads, plainReads, type ReadLoops } from "./reads.js";
import { type AssembledSpectra, assembledSpectra, plainSpectra, type SpectrumLoops } from "./spectra.js";
import { type AssembledTaps, assembledTaps, plainTaps, type TapLoops } from "./taps.js";

/**
 * The inner loops that profiles name. Each has two forms that give the same bits: plain, and
 * with SIMD in `assembly`. A loop is asked for once, with the arrays that it works on, and then run.
 */
export interface Loops
  extends BendLoops,
    ChainLoops,
    DiffuserLoops,
    EchoLoops,
    FourierLoops,
    HallLoops,
    MixLoops,
    PackLoops,
    PeakLoops,
    PlateLoops,
    RateLoops,
    ReadLoops,
    SpectrumLoops,
    TapLoops {}

/** What `assembly` exports: the same on places in memory. */
export interface AssembledLoops
  extends AssembledBends,
    AssembledChains,
    AssembledDiffusers,
    AssembledEchoes,
    AssembledFourier,
    AssembledHall,
    AssembledMixes,
    AssembledPacking,
    AssembledPeaks,
    AssembledPlate,
    AssembledRates,
    AssembledReads,
    AssembledSpectra,
    AssembledTaps {}

export const plainLoops: Loops = {
  ...plainBends,
  ...plainChains,
  ...plainDiffusers,
  ...plainEchoes,
  ...plainFourier,
  ...plainHall,
  ...plainMixes,
  ...plainPacking,
  ...plainPeaks,
  ...plainPlate,
  ...plainRates,
  ...plainReads,
  ...plainSpectra,
  ...plainTaps,
};

/** @param room  where arrays of these loops are; what they are given must lie there too */
export const assembledLoops = (loops: AssembledLoops, room: RoomArrays): Loops => ({
  ...assembledBends(loops, room),
  ...assembledChains(loops, room),
  ...assembledDiffusers(loops, room),
  ...assembledEchoes(loops, room),
  ...assembledFourier(loops, room),
  ...assembledHall(loops, room),
  ...assembledMixes(loops, room),
  ...assembledPacking(loops, room),
  ...assembledPeaks(loops, room),
  ...assembledPlate(loops, room),
  ...assembledRates(loops, room),
  ...assembledReads(loops, room),
  ...assembledSpectra(loops, room),
  ...assembledTaps(loops, room),
});
