import type { Clip } from "../../sound/audio/clip.js";
import { fftSizeFor } from "../../sound/dsp/analysisFft.js";
import { powerToDb } from "../../sound/dsp/units.js";
import { UserError } from "../../text/userError.js";
import { type Clock, driftPpm, settledClock } from "../capture/clock.js";
import { readStretched } from "../capture/fractionalRead.js";
import { locateSweeps } from "../capture/locate.js";
import { type RecordedNoise, recordedNoise } from "../capture/recordedNoise.js";
import { recordedSides } from "../capture/recordedSides.js";
import { SweepInverse } from "../capture/sweepInverse.js";
import { meanSpectrum } from "../capture/sweepRepeats.js";
import { signalOf } from "../capture/sweepSpectrum.js";
import { type ToneLayout, toneLayout } from "../capture/toneLayout.js";
import type { ToneSettings } from "../capture/toneSettings.js";
import { noiseParts, type SideNoise } from "./hum.js";
import { dampedSpectrum, lowSignal, type ProofGrid } from "./proofGrid.js";

/** What the tone found its way through, once a repeat: damped responses at the grid's low rate. */
export interface MeasuredBoard {
  /** `[repeat][side]`; all start at one frame of the tone's clock, ahead of the first arrival. */
  readonly responses: readonly (readonly Float64Array[])[];
  readonly noise: readonly RecordedNoise[];
  /** Bins of `noise`, Hz apart. */
  readonly noiseBinHz: number;
  /** What each side gives ahead of the tone. */
  readonly silence: readonly SideNoise[];
  /** RMS of each side over the sweeps, dBFS. */
  readonly levelDbfs: readonly number[];
  readonly driftPpm: number;
}

/** Kept ahead of the first arrival: what is quieter than a tenth of the loudest may come sooner. */
const aheadMs = 40;

const farAheadSeconds = 0.02;

/** The bench's tools for one tone, made once. */
export interface ToneReader {
  readonly layout: ToneLayout;
  readonly inverse: SweepInverse;
}

export function toneReader(tone: ToneSettings): ToneReader {
  const layout = toneLayout(tone);
  const lead = layout.gapFrames >> 1;
  const size = fftSizeFor(lead + layout.sweepFrames + layout.gapFrames);
  return { layout, inverse: new SweepInverse(layout, size, lead) };
}

/** Where the tone stands in a recording. @throws UserError when it cannot be read */
export function clockIn(recording: Clip, { layout, inverse }: ToneReader): Clock {
  const guide = loudest(recording);
  return settledClock(guide, inverse, locateSweeps(guide, layout).arrivals);
}

/** @throws UserError for a recording of another rate, silent, clipped, or not as many sides as the board has */
export function checkBoardRecording(recording: Clip, sides: 1 | 2, rateHz: number): void {
  if (recording.rateHz !== rateHz) {
    throw new UserError(
      `the recording is at ${recording.rateHz} Hz, the tone at ${rateHz} Hz. Record at the tone's rate.`,
    );
  }
  if (recording.channels.length !== sides) {
    throw new UserError(
      sides === 2
        ? `has ${recording.channels.length === 1 ? "one channel" : `${recording.channels.length} channels`}; the plan has two outputs. Record both at once, left and right of one stereo file.`
        : `has ${recording.channels.length} channels; the plan has one output. Record that one in mono.`,
    );
  }
  const [first] = recordedSides({ rateHz, channels: [loudest(recording)] }, "the recording");
  if (!first) throw new Error("no side");
}

function loudest({ channels }: Clip): Float32Array {
  const energy = (samples: Float32Array) => samples.reduce((sum, x) => sum + x * x, 0);
  return channels.reduce((a, b) => (energy(b) > energy(a) ? b : a));
}

/** @param isAtFirst  nothing comes well ahead of where the clock stands */
export function measureBoard(
  recording: Clip,
  clock: Clock,
  reader: ToneReader,
  grid: ProofGrid,
  isAtFirst: boolean,
): MeasuredBoard {
  const { layout, inverse } = reader;
  const straight = recording.channels.map((samples) =>
    readStretched(samples, clock.origin, clock.stretch, layout.frames),
  );
  const noise = straight.map((side) => recordedNoise(side, clock, inverse));
  const first = firstArrival(
    straight.map((side) => signalOf(meanSpectrum(side, inverse), inverse.fft)),
    { least: -inverse.leadFrames, most: layout.gapFrames },
  );
  // The clock stands by the loudest: where something comes well ahead of it, the next mark does too.
  if (first < -farAheadSeconds * grid.rateHz && !isAtFirst)
    return measureBoard(
      recording,
      { ...clock, origin: clock.origin + first * clock.stretch },
      reader,
      grid,
      true,
    );
  const start = Math.round(first - (aheadMs / 1000) * grid.rateHz);
  const responses = Array.from({ length: layout.settings.repeats }, (_, repeat) =>
    straight.map((side) => {
      const response = signalOf(inverse.repeat(side, repeat), inverse.fft);
      return lowSignal(dampedSpectrum(unwrapped(response, start, measuredFrames(layout, start)), grid), grid);
    }),
  );
  return {
    responses,
    noise,
    noiseBinHz: grid.rateHz / inverse.fft.size,
    silence: straight.map((side) => noiseParts(ahead(side, clock, layout), grid.rateHz)),
    levelDbfs: straight.map((side) => sweepLevelDbfs(side, layout)),
    driftPpm: driftPpm(clock),
  };
}

/**
 * The first frame within 20 dB of the loudest, of whichever side. The loudest stands near frame 0: a board may well give
 * an echo that is louder than what came before it.
 */
function firstArrival(
  responses: readonly Float64Array[],
  { least, most }: { readonly least: number; readonly most: number },
): number {
  const at = (response: Float64Array, n: number) => Math.abs(response[n < 0 ? n + response.length : n]);
  let peak = 0;
  for (const response of responses) for (let n = least; n < most; n++) peak = Math.max(peak, at(response, n));
  for (let n = least; n < most; n++)
    if (responses.some((response) => at(response, n) >= 0.1 * peak)) return n;
  return 0;
}

/** Until the next mark there is nothing but the response. */
const measuredFrames = ({ gapFrames }: ToneLayout, start: number): number => gapFrames - Math.max(0, start);

/** Part of a circular response, its end faded out. */
function unwrapped(response: Float64Array, start: number, frames: number): Float64Array {
  const fade = Math.round(frames / 20);
  return Float64Array.from({ length: frames }, (_, n) => {
    const at = start + n;
    const open = Math.min(1, (frames - n) / fade);
    return response[at < 0 ? at + response.length : at] * (0.5 - 0.5 * Math.cos(Math.PI * open));
  });
}

/** A straightened recording from where it starts to just ahead of the first mark. */
function ahead(side: Float64Array, clock: Clock, { markStarts, settings }: ToneLayout): Float64Array {
  const from = Math.max(0, Math.ceil(-clock.origin / clock.stretch));
  return side.subarray(from, Math.max(from, markStarts[0] - Math.round(0.01 * settings.rateHz)));
}

function sweepLevelDbfs(side: Float64Array, { sweepStarts, sweepFrames }: ToneLayout): number {
  let sum = 0;
  for (const start of sweepStarts) for (let n = 0; n < sweepFrames; n++) sum += side[start + n] ** 2;
  return powerToDb(sum / (sweepStarts.length * sweepFrames));
}
