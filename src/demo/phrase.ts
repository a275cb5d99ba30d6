import type { Clip } from "../sound/audio/clip.js";
import { dbToGain } from "../sound/dsp/units.js";

/** Some notes at a moment: one, a strum from low to high, or an arpeggio. */
export interface Gesture {
  /** Beats from the start. */
  readonly at: number;
  /** From low to high, as `noteHz` reads them, parted by spaces. */
  readonly notes: string;
  /** 0 to 1. */
  readonly strength: number;
  /** Beats until the notes are damped. */
  readonly beats: number;
  /** Seconds from one note to the next; 0 all at once. */
  readonly spread?: number;
}

/** One note of a phrase, in seconds. */
export interface Note {
  readonly name: string;
  readonly startSeconds: number;
  readonly heldSeconds: number;
  readonly strength: number;
  /** Counts all notes of the phrase from 0. */
  readonly number: number;
}

/** Peak of a demo take: room for what a rig adds. */
const peakDbfs = -3;

/**
 * Plays gestures by an instrument and brings the whole to a peak of -3 dBFS; the last half second fades to silence.
 *
 * @param play  the sound of one note, from its start; what lies beyond the end of the take is cut
 * @returns one channel
 */
export function playPhrase(
  gestures: readonly Gesture[],
  { beatSeconds, lengthSeconds, rateHz }: { beatSeconds: number; lengthSeconds: number; rateHz: number },
  play: (note: Note) => Float32Array,
): Clip {
  const sum = new Float64Array(Math.round(lengthSeconds * rateHz));
  for (const note of notesOf(gestures, beatSeconds)) {
    const start = Math.round(note.startSeconds * rateHz);
    const sound = play(note);
    const frames = Math.min(sound.length, sum.length - start);
    for (let n = 0; n < frames; n++) sum[start + n] += sound[n];
  }
  const fadeFrames = 0.5 * rateHz;
  for (let left = 0; left < fadeFrames; left++) sum[sum.length - 1 - left] *= left / fadeFrames;
  const peak = sum.reduce((largest, x) => Math.max(largest, Math.abs(x)), 0);
  const gain = dbToGain(peakDbfs) / peak;
  return { rateHz, channels: [Float32Array.from(sum, (x) => x * gain)] };
}

function notesOf(gestures: readonly Gesture[], beatSeconds: number): Note[] {
  const notes = gestures.flatMap(({ at, notes: names, strength, beats, spread = 0 }) =>
    names.split(" ").map((name, n) => ({
      name,
      startSeconds: at * beatSeconds + n * spread,
      heldSeconds: beats * beatSeconds - n * spread,
      strength,
    })),
  );
  return notes.map((note, number) => ({ ...note, number }));
}
