import type { Clip } from "../../sound/audio/clip.js";
import { fftSizeFor } from "../../sound/dsp/analysisFft.js";
import { framesToMs, msToFrames } from "../../sound/dsp/units.js";
import { UserError } from "../../text/userError.js";
import { type CapturedUnit, partedUnit, type ToldOfUnit, takeDirectOut } from "./capturedUnit.js";
import { type CaptureFacts, factsOf } from "./captureFacts.js";
import { humNotes, latencyNotes, notesOn } from "./captureNotes.js";
import { driftPpm, settledClock } from "./clock.js";
import { reasonsAgainst } from "./judge.js";
import { locateSweeps, noTone } from "./locate.js";
import { refuseLostBlocks } from "./lostBlock.js";
import { type MainsHum, mainsHumOf } from "./mainsHum.js";
import { cutOut, pieceOf, type ResponsePiece } from "./piece.js";
import { recordedSides, type Side } from "./recordedSides.js";
import { referenceSpectrum } from "./reference.js";
import { type SideSweeps, sweepsOf } from "./sideSweeps.js";
import { refuseSwapped } from "./swappedSides.js";
import { SweepInverse } from "./sweepInverse.js";
import { toneLayout } from "./toneLayout.js";
import { type ToneSettings, toneSettingsOf } from "./toneSettings.js";

export interface CaptureOptions {
  /** The side of a stereo recording to measure; both when left out. */
  readonly channel?: "left" | "right";
  /** The side that recorded the tone by a plain cable at the same time: latency and colour are then told against it. */
  readonly referenceChannel?: "left" | "right";
}

/** Options of a capture, and what the person says of the unit. */
export type CaptureWords = CaptureOptions & ToldOfUnit;

/** What a recording of the tone says of the unit in the loop. */
export interface CaptureResponse {
  /** The linear response, at the unit's own gain; with `unit` beside it drops into a rig as `model: response`. */
  readonly response: Clip;
  readonly unit: CapturedUnit;
  /** Where the tone measured it. Beyond, it goes on as at the band's edges. */
  readonly bandHz: readonly [number, number];
  /** How much faster the recorder ran than the player, parts per million; taken out of the response. */
  readonly driftPpm: number;
  /** How late the response's frame 0 is against `latencyAgainst`: the latency to go with the file. Tone's clock. */
  readonly startFrames: number;
  readonly latencyAgainst: "reference" | "start of the recording";
  /** One a channel of the response. */
  readonly channels: readonly CaptureFacts[];
  /** Whether a response can stand for the unit; `statements` say why not. */
  readonly standsForUnit: boolean;
  readonly statements: readonly string[];
}

/** The first mark must be like what the response makes of it, unless the sweeps alone leave no doubt. */
const leastLikeness = 0.25;
const surelyTheTone = 50;

/**
 * The response of a unit from a recording of the tone of `makeTone`.
 *
 * Finds the sweeps wherever the recording starts, takes the drift between player and recorder out, divides by the
 * sweep, parts the linear response from the orders of distortion, averages the repeats and trims at the noise floor.
 *
 * @param recording mono or stereo, at the tone's rate; a stereo one gives a stereo response
 * @param tone      the settings that the tone was made with
 * @throws UserError when the recording cannot be used: another rate, silent, dead side, clipped, no tone, cut off
 * Source: Farina 2000, AES 108th Convention, preprint 5093; ISO 18233:2006 Annex B; decay: ISO 3382-1:2009.
 */
export function responseOf(
  recording: Clip,
  tone: Partial<ToneSettings> = {},
  options: CaptureWords = {},
): CaptureResponse {
  const layout = toneLayout(toneSettingsOf(tone));
  const { rateHz } = layout.settings;
  const { units, reference } = sidesFor(recording, rateHz, options);
  const guide = reference ?? units.reduce((a, b) => (energyOf(b) > energyOf(a) ? b : a));
  const lead = layout.gapFrames >> 1;
  const inverse = new SweepInverse(layout, fftSizeFor(lead + layout.sweepFrames + layout.gapFrames), lead);
  const { arrivals, prominence } = locateSweeps(guide.samples, layout);
  refuseLostBlocks(guide.samples, layout, arrivals);
  const clock = settledClock(guide.samples, inverse, arrivals);
  if (reference) for (const unit of units) refuseSwapped(unit, reference, clock, inverse);
  const base = reference && referenceSpectrum(reference, clock, inverse);
  const sides = units.map((unit) => sweepsOf(unit, clock, inverse, base));
  const likeness = Math.max(...sides.map((side) => side.levels.likeness));
  if (likeness < leastLikeness && prominence < surelyTheTone) throw noTone();
  const measured = measuredFrom(Math.min(...sides.map((side) => side.onset.frames)), null);
  const parted = partedUnit(measured.channels, options, reference !== null);
  const { hasDirect } = parted;
  const told = options.latencyMs === undefined ? null : msToFrames(options.latencyMs, rateHz);
  // Where nothing tells the unit's own latency, all that lies ahead of its first sound belongs to the effect.
  const anchor = hasDirect || !reference ? null : (told ?? 0);
  const kept =
    anchor !== null
      ? measuredFrom(anchoredAt(anchor, measured.first, rateHz), anchor)
      : parted.takesDirectOut
        ? startingAtOnset(measured)
        : measured;
  const { channels, first, from } = kept;
  const known = reference !== null || channels.every(({ latencyFrames }) => latencyFrames !== null);
  const latencyFrames = hasDirect ? (known ? onClock(measured.first) : null) : told;
  const against = channels.flatMap(reasonsAgainst);
  return {
    response: { rateHz, channels: kept.pieces.map((_, n) => fileOf(kept, n)) },
    unit: {
      ...parted.unit,
      latencyFrames,
      latencyBy: latencyFrames === null ? null : hasDirect ? "direct sound" : "given",
    },
    bandHz: layout.bandHz,
    driftPpm: driftPpm(clock),
    startFrames: onClock(first + from),
    latencyAgainst: reference ? "reference" : "start of the recording",
    channels,
    standsForUnit: against.length === 0,
    statements: [
      ...new Set([
        ...against,
        ...notesOn(sides, kept.pieces, units, channels),
        ...humNotes(worstHum(sides, rateHz)),
        ...parted.unit.notes,
        ...latencyNotes({ hasDirect, hasReference: reference !== null, told, found: latencyFrames, rateHz }),
      ]),
    ],
  };

  function onClock(frames: number): number {
    return reference ? frames : clock.origin / clock.stretch + frames;
  }

  /** Pieces with `first` on frame 0, and their facts. `start`: where the file starts, else where its sound does. */
  function measuredFrom(first: number, start: number | null): Measured {
    const pieces = sides.map((side) => pieceOf(side, first, inverse));
    const earliest = reference ? -Math.floor(Math.max(0, first)) : Number.NEGATIVE_INFINITY;
    const from =
      start === null
        ? Math.max(earliest, Math.min(...pieces.map((piece) => piece.from)))
        : Math.round(start - first);
    const absolute = reference !== null;
    const channels = sides.map((side, n) =>
      factsOf(side, pieces[n], { first, from, latencyFrames: onClock(side.onset.frames), absolute }, inverse),
    );
    return { first, from, to: Math.max(...pieces.map((piece) => piece.to)), pieces, channels };
  }

  function fileOf({ pieces, channels, from, to }: Measured, n: number): Float32Array {
    const cut = cutOut(pieces[n].filled, from, to, rateHz);
    // Noise ahead of the first sound.
    if (pieces[n].from > from) cut.fill(0, 0, pieces[n].from - from);
    if (parted.takesDirectOut) takeDirectOut(cut, Math.round(channels[n].onsetFrames), rateHz);
    return parted.gain === 1 ? cut : cut.map((x) => parted.gain * x);
  }
}

interface Measured {
  readonly first: number;
  readonly from: number;
  readonly to: number;
  readonly pieces: readonly ResponsePiece[];
  readonly channels: readonly CaptureFacts[];
}

/** Without the frames ahead of the dry sound, which is taken out. */
const startingAtOnset = (measured: Measured): Measured => ({
  ...measured,
  from: 0,
  channels: measured.channels.map((facts) => ({
    ...facts,
    onsetFrames: facts.onsetFrames + measured.from,
  })),
});

const worstHum = (sides: readonly SideSweeps[], rateHz: number): MainsHum | null =>
  sides
    .flatMap(({ noise }) => mainsHumOf(noise.silence, rateHz) ?? [])
    .reduce<MainsHum | null>(
      (worst, hum) => (hum.levelDbfs > (worst?.levelDbfs ?? -999) ? hum : worst),
      null,
    );

/** A first frame near the first arrival that lies whole frames after `anchor`. @throws UserError when that is later */
function anchoredAt(anchor: number, first: number, rateHz: number): number {
  if (first < anchor - aheadSeconds * rateHz) {
    throw new UserError(
      `the first sound comes at ${framesToMs(first, rateHz).toFixed(2)} ms, ahead of the latency of ${framesToMs(anchor, rateHz).toFixed(2)} ms that was given. Give the unit's own latency (--latency), at most that.`,
    );
  }
  return anchor + Math.round(first - anchor);
}

/** A first arrival may peak so much ahead of a latency that is told to a tenth of a millisecond. */
const aheadSeconds = 0.0002;

/** The sides to measure and the one that holds the plain cable. */
function sidesFor(
  recording: Clip,
  rateHz: number,
  { channel, referenceChannel }: CaptureOptions,
): { units: Side[]; reference: Side | null } {
  if (recording.rateHz !== rateHz) {
    throw new UserError(
      `the recording is at ${recording.rateHz} Hz, the tone at ${rateHz} Hz. Record at the tone's rate; converting would hide the clock.`,
    );
  }
  if (referenceChannel && recording.channels.length !== 2) {
    throw new UserError(
      "a reference needs a stereo recording: the unit on one side, a plain cable on the other.",
    );
  }
  if (referenceChannel && referenceChannel === channel) {
    throw new UserError(`the ${channel} side cannot be both the unit and its reference. Name the other one.`);
  }
  const sides = recordedSides(recording, "the recording", referenceChannel ? undefined : channel);
  const reference = sides.find((side) => side.name === referenceChannel) ?? null;
  return { units: sides.filter((side) => side !== reference), reference };
}

const energyOf = ({ samples }: { samples: Float32Array }): number =>
  samples.reduce((sum, x) => sum + x * x, 0);
