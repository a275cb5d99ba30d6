import { framesToMs, gainToDb } from "../../sound/dsp/units.js";
import type { CaptureFacts } from "./captureFacts.js";
import { isDriven } from "./judge.js";
import type { MainsHum } from "./mainsHum.js";
import type { ResponsePiece } from "./piece.js";
import { flatTops, type Side } from "./recordedSides.js";
import type { SideSweeps } from "./sideSweeps.js";

/** @param hum of the worst side */
export function humNotes(hum: MainsHum | null): string[] {
  return hum === null
    ? []
    : [
        `The recording hums at ${hum.mainsHz} Hz and its multiples, ${hum.levelDbfs.toFixed(0)} dBFS: a ground loop, or a pickup or cable by a transformer. Break the loop with an isolating transformer in the signal, never at the mains earth, and record again.`,
      ];
}

/** Noise ahead of the tone that is worth a word. */
const noisyDbfs = -50;

/** What a person should know of a recording that can be used all the same. */
export function notesOn(
  sides: readonly SideSweeps[],
  pieces: readonly ResponsePiece[],
  units: readonly Side[],
  channels: readonly CaptureFacts[],
): string[] {
  const notes: string[] = [];
  const driven = channels.some((facts) => isDriven(facts.distortionDb));
  if (pieces.some((piece) => piece.cut) && !driven) {
    notes.push(
      "The tail still sounds where the next mark begins: the response is cut there. Make the tone with a longer gapSeconds.",
    );
  }
  for (const { samples } of units) {
    const { count, level } = flatTops(samples);
    if (count > 0) {
      notes.push(
        `The recording has ${count} flat tops at ${gainToDb(level).toFixed(1)} dBFS: something on the way clips. If it is not the unit itself, turn the level down and record again.`,
      );
    }
  }
  if (sides.some((side) => side.noise.levelDbfs !== null && side.noise.levelDbfs > noisyDbfs)) {
    notes.push("The recording is noisy: more repeats or a longer sweep bring the response out.");
  }
  return notes;
}

/** How far a latency that was told and the direct sound may be apart. */
const apartMs = 0.05;

/** What is known of the unit's own latency, and what follows where it is not. */
export function latencyNotes(of: {
  readonly hasDirect: boolean;
  readonly hasReference: boolean;
  /** In frames, as the person says. */
  readonly told: number | null;
  readonly found: number | null;
  readonly rateHz: number;
}): string[] {
  const { hasDirect, hasReference, told, found, rateHz } = of;
  const ms = (frames: number) => `${framesToMs(frames, rateHz).toFixed(2)} ms`;
  if (hasDirect && found === null)
    return [
      "Latency unknown: the recorder did not start with the tone. Start both together, record a plain cable on the other side, or use align.",
    ];
  if (hasDirect)
    return told !== null && found !== null && Math.abs(framesToMs(told - found, rateHz)) > apartMs
      ? [`A latency of ${ms(told)} was given; the direct sound comes at ${ms(found)}, and that is written.`]
      : [];
  if (!hasReference)
    return [
      "Latency unknown: no direct sound tells it, and the time ahead of the first sound is not in the file. Record a plain cable on the other side, or give --latency.",
    ];
  return told === null
    ? [
        "No direct sound tells the unit's own latency: the time ahead of its first sound is in the file, and no latencyMs is written. If its dry sound passes converters, give what they take (--latency).",
      ]
    : [];
}
