import type { Clip } from "../../sound/audio/clip.js";
import { framesToMs, gainToDb } from "../../sound/dsp/units.js";
import { frequency } from "../../text/numbers.js";
import { UserError } from "../../text/userError.js";
import { type Interval, type LikelyError, likelyError } from "./alignError.js";
import { type CoarseLag, coarseLag } from "./coarseLag.js";
import { type SharedSpectra, sharedSpectra } from "./coherence.js";
import { leakNotchesHz } from "./leakNotches.js";
import { directGain, spectralMatchDb } from "./loopTone.js";
import { fitPhaseSlope } from "./phaseSlope.js";
import { about, recordedSides } from "./recordedSides.js";
import { emptySpectrum, type Spectrum } from "./sweepSpectrum.js";

/** How a loop through splitter, unit and mixer stands to the dry take that went into it. */
export interface Alignment {
  /** Positive: the loop is late. To about 1/100 frame at 20 dB over noise. */
  readonly latencyFrames: number;
  readonly latencyMs: number;
  readonly invertsPolarity: boolean;
  /** Gain of what follows the dry take, whatever noise there is. */
  readonly gainDb: number;
  /** Where latency and gain lie in nine of ten cases. */
  readonly latencyFramesWithin: Interval;
  readonly gainDbWithin: Interval;
  /** Whether the loop holds the take: 0 chance, 1 no doubt. */
  readonly follows: number;
  /** `follows`, less what is likely to be wrong with latency and gain, and where another lag fits too; 1: no doubt. */
  readonly confidence: number;
  /** A lag that fits about as well, frames, and its peak's share of the best; null where there is none. */
  readonly otherLag: CoarseLag["other"];
  /** A filter in the loop, by its loudest and its softest octave; null where octaves come through alike. */
  readonly filter: LikelyError["filter"];
  /** How far the loop's third octaves depart from that gain, RMS by the take's own energy; 0: the same tone. */
  readonly spectralMatchDb: number;
  /** What the unit's dry leak, or a dry path beside this loop, would notch: the first five. */
  readonly leakNotchesHz: readonly number[];
  /** To paste under the pedal in a rig file. */
  readonly rigLines: readonly string[];
  readonly cautions: readonly string[];
}

export interface AlignOptions {
  /** The side to take from a stereo loop; the mean of both when left out. */
  readonly channel?: "left" | "right";
  /** How messages call the loop; null where its file's name stands ahead of them. */
  readonly loopName?: string | null;
}

/** Only so much of a long take is looked at. */
const mostSeconds = 60;
const leastSeconds = 0.5;
/**
 * The peak of the whitened correlation over its RMS. Different takes of one guitar gave up to 15, a take under noise,
 * filters, equal reverb or fuzz from 40 up, a cable 160.
 */
const [chanceProminence, sureProminence] = [15, 60];
const leastConfidence = 0.1;
/** A latency that is likely wrong by so many frames, a gain by so many dB, is worth half. Chosen, no source. */
const [halfFrames, halfDb] = [3, 3];
/** Under this it is not sure that the loop holds the take. */
export const doubtfulConfidence = 0.5;

/**
 * Latency, polarity and gain of a loop, from any take that was played into it.
 *
 * First the whitened cross-correlation of the whole (generalised cross-correlation), then the slope of the phase over
 * the bins where loop and take are coherent, each bin weighted by coherence / (1 - coherence).
 *
 * @throws UserError when the rates differ, a clip is silent, dead on one side, clipped or too short, or when the loop
 *   does not follow the take
 * Source: Knapp and Carter 1976, IEEE Trans. ASSP 24(4) (maximum likelihood weight), from memory.
 */
export function align(
  dry: Clip,
  looped: Clip,
  { channel, loopName = "the looped recording" }: AlignOptions = {},
): Alignment {
  const { rateHz } = dry;
  if (looped.rateHz !== rateHz) {
    throw new UserError(
      `the loop is at ${looped.rateHz} Hz, the dry take at ${rateHz} Hz. Record the loop at the take's rate.`,
    );
  }
  const take = oneSide(dry, "the dry take");
  const loop = oneSide(looped, loopName, channel);
  const { lag, prominence, other } = coarseLag(take, loop, rateHz);
  const follows = Math.max(
    0,
    Math.min(1, Math.log(prominence / chanceProminence) / Math.log(sureProminence / chanceProminence)),
  );
  if (follows < leastConfidence) {
    throw new UserError(
      about(
        loopName,
        `does not follow the dry take (confidence ${follows.toFixed(2)}). Give the recording of this very take through the loop; a unit that lets no direct sound through has to be measured with the test tone.`,
      ),
    );
  }
  const { spectra, latencyFrames, inverted } = fineLatency(take, loop, lag);
  const gain = directGain(spectra, latencyFrames - spectra.lag);
  const latencyMs = framesToMs(latencyFrames, rateHz);
  const gainDb = gainToDb(Math.abs(gain));
  const likely = likelyError(spectra, coherenceWeights(spectra), latencyFrames - spectra.lag, rateHz);
  const within: Interval = [spectra.lag + likely.latencyFrames[0], spectra.lag + likely.latencyFrames[1]];
  const confidence =
    follows *
    worth(farthest(within, latencyFrames) / halfFrames) *
    worth(farthest(likely.gainDb, gainDb) / halfDb) *
    (other === null ? 1 : 1 - Math.min(1, other.share));
  return {
    latencyFrames,
    latencyMs,
    invertsPolarity: inverted,
    gainDb,
    latencyFramesWithin: within,
    gainDbWithin: likely.gainDb,
    follows,
    confidence: Math.max(0, confidence),
    otherLag: other,
    filter: likely.filter,
    spectralMatchDb: spectralMatchDb(spectra, gain, rateHz),
    leakNotchesHz: leakNotchesHz(latencyMs, inverted, rateHz),
    rigLines: rigLinesOf(latencyMs, inverted, gainDb),
    cautions: cautionsOn({ latencyFrames, confidence, other, likely, within, rateHz }),
  };
}

/** 1 for no error, 1/2 for one of 1. */
const worth = (error: number): number => 1 / (1 + error * error);

const farthest = ([from, to]: Interval, value: number): number => Math.max(value - from, to - value);

/** One signal from a clip: its only side, the one asked for, or the mean of both. */
function oneSide(clip: Clip, what: string | null, channel?: "left" | "right"): Float32Array {
  const sides = recordedSides(clip, what, channel).map((side) =>
    side.samples.subarray(0, Math.round(mostSeconds * clip.rateHz)),
  );
  if (sides[0].length < leastSeconds * clip.rateHz) {
    throw new UserError(
      about(
        what,
        `is too short: ${(sides[0].length / clip.rateHz).toFixed(2)} s. Give at least ${leastSeconds} s of playing.`,
      ),
    );
  }
  if (sides.length === 1) return sides[0];
  const [left, right] = sides;
  const mean = left.map((x, n) => (x + right[n]) / 2);
  const energy = (side: Float32Array) => side.reduce((sum, x) => sum + x * x, 0);
  if (energy(mean) < 1e-3 * (energy(left) + energy(right))) {
    throw new UserError(
      about(what, "its sides cancel when they are added. Name one of them (--channel left).", ":"),
    );
  }
  return mean;
}

/** Phase-slope fit around a coarse lag; once more from the new lag when that was off by more than half a frame. */
function fineLatency(take: Float32Array, loop: Float32Array, coarse: number) {
  let lag = coarse;
  for (let round = 0; ; round++) {
    const spectra = { ...sharedSpectra(take, loop, lag), lag };
    const { delayFrames, agreement } = fitPhaseSlope(byCoherence(spectra), 0);
    if (Math.abs(delayFrames) <= 0.5 || round === 3) {
      return { spectra, latencyFrames: lag + delayFrames, inverted: agreement < 0 };
    }
    lag += Math.round(delayFrames);
  }
}

/** The cross-spectrum's phases with coherence / (1 - coherence) for their size. */
function byCoherence(spectra: SharedSpectra): Spectrum {
  const { cross, size } = spectra;
  const weights = coherenceWeights(spectra);
  const { re, im } = emptySpectrum(size);
  for (let k = 1; k < weights.length - 1; k++) {
    re[k] = weights[k] * cross.re[k];
    im[k] = weights[k] * cross.im[k];
  }
  return { re, im };
}

/** What brings each bin of the cross-spectrum to that size. */
const coherenceWeights = ({ cross, coherence }: SharedSpectra): Float64Array =>
  coherence.map((shared, k) => {
    const length = Math.hypot(cross.re[k], cross.im[k]);
    return shared === 0 || length === 0 ? 0 : shared / Math.max(1e-4, 1 - shared) / length;
  });

function rigLinesOf(latencyMs: number, inverted: boolean, gainDb: number): string[] {
  return [
    `latencyMs: ${Math.max(0, latencyMs).toFixed(4)}`,
    `invertsPolarity: ${inverted}`,
    `levelDb: ${gainDb.toFixed(2)}`,
  ];
}

function cautionsOn(of: {
  readonly latencyFrames: number;
  readonly confidence: number;
  readonly other: CoarseLag["other"];
  readonly likely: LikelyError;
  readonly within: Interval;
  readonly rateHz: number;
}): string[] {
  const { latencyFrames, confidence, other, likely, within, rateHz } = of;
  const ms = (frames: number) => framesToMs(frames, rateHz).toFixed(2);
  const cautions = [
    "The latency holds the interface's own way out and in, unless the dry take was recorded at the splitter in the same pass. Loop a plain cable once and take its latency off.",
  ];
  if (other !== null) {
    cautions.push(
      `A lag of ${ms(other.lag)} ms may fit as well: the take repeats, ${ms(Math.abs(other.lag - latencyFrames))} ms apart (a peak of ${(100 * other.share).toFixed(0)} % of this one). Where the recording is not whole, the wrong one may have won: play a take that does not repeat.`,
    );
  }
  if (likely.filter !== null) {
    const { loudest, softest } = likely.filter;
    cautions.push(
      `A filter is in the loop: ${frequency(loudest.hz)} comes through at ${loudest.gainDb.toFixed(1)} dB, ${frequency(softest.hz)} at ${softest.gainDb.toFixed(1)} dB. It has no one gain and no one latency: by octaves they lie between ${likely.gainDb[0].toFixed(1)} and ${likely.gainDb[1].toFixed(1)} dB, and between ${ms(within[0])} and ${ms(within[1])} ms. Converters have the lowest; the rest is the filter's own.`,
    );
  }
  if (latencyFrames < -0.5) {
    cautions.push(
      "The loop comes ahead of the dry take: the recorder did not start with the player, or its delay was corrected.",
    );
  }
  if (confidence < doubtfulConfidence) {
    cautions.push(
      "The loop follows the take only in part (noise, much reverb, distortion): check the latency with the test tone.",
    );
  }
  return cautions;
}
