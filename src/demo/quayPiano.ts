import type { Clip } from "../sound/audio/clip.js";
import { noteHz } from "./notes.js";
import { type Gesture, type Note, playPhrase } from "./phrase.js";
import { strikeTine } from "./struckTine.js";

const beatSeconds = 60 / 92;
const lengthSeconds = 11.5;

/** Four bars in D minor for an electric piano: held chords, answers in the right hand, stabs with rests behind them. */
const gestures: readonly Gesture[] = [
  { at: 0, notes: "D2 A2", strength: 0.6, beats: 2.9 },
  { at: 0, notes: "F3 C4 E4", strength: 0.5, beats: 2.4, spread: 0.012 },
  { at: 2.5, notes: "A4", strength: 0.55, beats: 0.5 },
  { at: 3, notes: "G4", strength: 0.5, beats: 0.5 },
  { at: 3.5, notes: "E4", strength: 0.6, beats: 0.9 },

  { at: 4, notes: "G2", strength: 0.7, beats: 1.8 },
  { at: 4.5, notes: "F3 B3 D4 A4", strength: 0.75, beats: 0.3 },
  { at: 5.5, notes: "F3 B3 D4", strength: 0.6, beats: 0.25 },
  { at: 6, notes: "D5", strength: 0.85, beats: 0.9 },
  { at: 7, notes: "B4", strength: 0.5, beats: 0.4 },

  { at: 8, notes: "C2 G2", strength: 0.75, beats: 3.6 },
  { at: 8, notes: "E3 B3 D4 G4", strength: 0.7, beats: 3.6, spread: 0.05 },
  { at: 10.5, notes: "C5", strength: 0.4, beats: 0.5 },
  { at: 11, notes: "E5", strength: 0.45, beats: 0.7 },

  { at: 12, notes: "A1 A2", strength: 1, beats: 0.35 },
  { at: 12.5, notes: "G3 C#4 F4 A#4", strength: 0.95, beats: 0.3 },
  { at: 14, notes: "D2 A2 F3 C4 E4 A4", strength: 0.45, beats: 3.2, spread: 0.07 },
];

/** The dry take of the electric-piano rig: 11.5 s, mono. */
export function quayPianoTake(rateHz: number): Clip {
  return playPhrase(gestures, { beatSeconds, lengthSeconds, rateHz }, (note) => strike(note, rateHz));
}

function strike({ name, strength, heldSeconds }: Note, rateHz: number): Float32Array {
  return strikeTine(
    { frequencyHz: noteHz(name), heldSeconds, lengthSeconds: heldSeconds + 0.5, strength },
    rateHz,
  );
}
