import type { Clip } from "../../sound/audio/clip.js";
import { framesToMs, gainToDb } from "../../sound/dsp/units.js";
import { UserError } from "../../text/userError.js";
import { coarseLag } from "./coarseLag.js";
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
  /** 0 chance, 1 no doubt that the loop holds the take at this delay. */
  readonly confidence: number;
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
  const { lag, prominence } = coarseLag(take, loop, rateHz);
  const confidence = Math.max(
    0,
    Math.min(1, Math.log(prominence / chanceProminence) / Math.log(sureProminence / chanceProminence)),
  );
  if (confidence < leastConfidence) {
    throw new UserError(
      about(
        loopName,
        `does not follow the dry take (confidence ${confidence.toFixed(2)}). Give the recording of this very take through the loop; a unit that lets no direct sound through has to be measured with the test tone.`,
      ),
    );
  }
  const { spectra, latencyFrames, inverted } = fineLatency(take, loop, lag);
  const gain = directGain(spectra, latencyFrames - spectra.lag);
  const latencyMs = framesToMs(latencyFrames, rateHz);
  const gainDb = gainToDb(Math.abs(gain));
  return {
    latencyFrames,
    latencyMs,
    invertsPolarity: inverted,
    gainDb,
    confidence,
    spectralMatchDb: spectralMatchDb(spectra, gain, rateHz),
    leakNotchesHz: leakNotchesHz(latencyMs, inverted, rateHz),
    rigLines: rigLinesOf(latencyMs, inverted, gainDb),
    cautions: cautionsOn(latencyFrames, confidence),
  };
}

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
function byCoherence({ size, cross, coherence }: SharedSpectra): Spectrum {
  const { re, im } = emptySpectrum(size);
  for (let k = 1; k < coherence.length - 1; k++) {
    const length = Math.hypot(cross.re[k], cross.im[k]);
    if (coherence[k] === 0 || length === 0) continue;
    const weight = coherence[k] / Math.max(1e-4, 1 - coherence[k]) / length;
    re[k] = weight * cross.re[k];
    im[k] = weight * cross.im[k];
  }
  return { re, im };
}

function rigLinesOf(latencyMs: number, inverted: boolean, gainDb: number): string[] {
  return [
    `latencyMs: ${Math.max(0, latencyMs).toFixed(4)}`,
    `invertsPolarity: ${inverted}`,
    `levelDb: ${gainDb.toFixed(2)}`,
  ];
}

function cautionsOn(latencyFrames: number, confidence: number): string[] {
  const cautions = [
    "The latency holds the interface's own way out and in, unless the dry take was recorded at the splitter in the same pass. Loop a plain cable once and take its latency off.",
  ];
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
