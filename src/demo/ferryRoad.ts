import type { Clip } from "../sound/audio/clip.js";
import { Biquad } from "../sound/dsp/biquad.js";
import { lowPass } from "../sound/dsp/biquadDesign.js";
import { noteHz } from "./notes.js";
import { type Gesture, type Note, playPhrase } from "./phrase.js";
import { pluckString } from "./pluckedString.js";

const beatSeconds = 0.75;
const lengthSeconds = 19;

/** Six bars in B minor for a baritone guitar tuned B1 E2 A2 D3 F#3 B3: lines, chords, and rests to hear the tail in. */
const gestures: readonly Gesture[] = [
  { at: 0, notes: "B1", strength: 0.85, beats: 3.8 },
  { at: 1, notes: "F#2", strength: 0.5, beats: 2.8 },
  { at: 1.5, notes: "B2", strength: 0.5, beats: 2.3 },
  { at: 2, notes: "D3", strength: 0.6, beats: 1.8 },
  { at: 2.5, notes: "F#3", strength: 0.7, beats: 1.3 },
  { at: 3.25, notes: "C#3", strength: 0.5, beats: 0.6 },

  { at: 4, notes: "G2", strength: 0.7, beats: 3.2 },
  { at: 4, notes: "E3", strength: 0.75, beats: 0.95 },
  { at: 5, notes: "D3", strength: 0.6, beats: 0.45 },
  { at: 5.5, notes: "C#3", strength: 0.6, beats: 0.45 },
  { at: 6, notes: "B2", strength: 0.75, beats: 1.2 },

  { at: 8, notes: "E2 B2 D3 G3 B3", strength: 0.8, beats: 2.6, spread: 0.028 },
  { at: 10.75, notes: "A3", strength: 0.45, beats: 0.45 },
  { at: 11.25, notes: "F#3", strength: 0.55, beats: 0.5 },

  { at: 12, notes: "B1", strength: 1, beats: 0.4 },
  { at: 12.75, notes: "B2 D3 F#3 A3", strength: 0.95, beats: 0.3, spread: 0.008 },
  { at: 14.5, notes: "D3", strength: 0.35, beats: 0.45 },
  { at: 15, notes: "C#3", strength: 0.35, beats: 0.45 },
  { at: 15.5, notes: "A2", strength: 0.4, beats: 0.5 },

  { at: 16, notes: "G2 D3 F#3 B3", strength: 0.6, beats: 1.9, spread: 0.14 },
  { at: 18, notes: "E2", strength: 0.75, beats: 0.48 },
  { at: 18.5, notes: "F#2", strength: 0.75, beats: 0.48 },
  { at: 19, notes: "A2", strength: 0.85, beats: 0.6 },

  { at: 20, notes: "B1 F#2 B2 C#3 F#3 B3", strength: 0.8, beats: 5.4, spread: 0.034 },
  { at: 22.5, notes: "F#4", strength: 0.4, beats: 2.8 },
];

/** The dry take of the baritone rig: 19 s, mono, straight from the pickup. */
export function ferryRoadTake(rateHz: number): Clip {
  return playPhrase(gestures, { beatSeconds, lengthSeconds, rateHz }, (note) => pluck(note, rateHz));
}

function pluck({ name, strength, heldSeconds, number }: Note, rateHz: number): Float32Array {
  const frequencyHz = noteHz(name);
  const dampedSeconds = 0.35;
  const sound = pluckString(
    {
      frequencyHz,
      decaySeconds: 10 * Math.sqrt(61.7 / frequencyHz),
      dampAtSeconds: heldSeconds,
      dampedSeconds,
      lengthSeconds: heldSeconds + 2 * dampedSeconds,
      strength,
      pickAt: 0.14,
      pickupAt: 0.24,
      seed: number,
    },
    rateHz,
  );
  new Biquad(lowPass({ ...coil, rateHz })).process(sound, sound, sound.length);
  return sound;
}

/** A pickup's coil and its cable: a resonance, and nothing above. Common practice, no source. */
const coil = { cutoffHz: 3200, q: 1.3 };
