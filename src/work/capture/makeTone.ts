import type { Clip } from "../../sound/audio/clip.js";
import { markSamples, sweepSamples, toneLayout } from "./toneLayout.js";
import { type ToneSettings, toneSettingsOf } from "./toneSettings.js";

/** What must be known to read a recording of the tone; plain data, kept beside the sound file. */
export interface ToneDescription {
  readonly schemaVersion: 1;
  readonly tone: ToneSettings;
  readonly lengthSeconds: number;
  readonly bandHz: readonly [number, number];
  readonly sweepStartsSeconds: readonly number[];
  readonly markStartsSeconds: readonly number[];
  readonly cautions: readonly string[];
}

/** Said wherever a unit is measured. */
export const stillCaution = "Stop or freeze every modulation first: a sweep measures only what holds still.";

/** Printed with every tone. */
const toneCautions: readonly string[] = [
  "Hearing: a sweep is louder than it looks. Take headphones off, turn monitors down, raise levels slowly.",
  "Equipment: keep it off loudspeakers and their amplifiers; the top octaves can burn a tweeter.",
  "Level: an interface is far louder than a guitar. Start with its output down (a reamping box does that) and raise it to what the unit is used to; record with peaks between -12 and -3 dBFS.",
  stillCaution,
];

/**
 * The test tone: exponential sweeps with a sync mark before and after each, mono.
 *
 * @param given settings that differ from the defaults of `toneSettingTable`
 * @returns the sound, and the description that `responseOf` needs its `tone` of
 * @throws UserError when a setting is out of its range
 * Source: Farina 2000, AES 108th Convention, preprint 5093; ISO 18233:2006 Annex B.
 */
export function makeTone(given: Partial<ToneSettings> = {}): { clip: Clip; description: ToneDescription } {
  const settings = toneSettingsOf(given);
  const layout = toneLayout(settings);
  const out = new Float32Array(layout.frames);
  const mark = markSamples(layout);
  const sweep = sweepSamples(layout);
  for (const start of layout.markStarts) out.set(mark, start);
  for (const start of layout.sweepStarts) out.set(sweep, start);
  const seconds = (frames: number) => frames / settings.rateHz;
  return {
    clip: { rateHz: settings.rateHz, channels: [out] },
    description: {
      schemaVersion: 1,
      tone: settings,
      lengthSeconds: seconds(layout.frames),
      bandHz: layout.bandHz,
      sweepStartsSeconds: layout.sweepStarts.map(seconds),
      markStartsSeconds: layout.markStarts.map(seconds),
      cautions: toneCautions,
    },
  };
}
