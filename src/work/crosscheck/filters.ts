import type { boostSettings } from "../../rig/pedals/boost.js";
import { butterworthQs, presenceQ, resonanceQ, type speakerSettings } from "../../rig/pedals/speaker.js";
import type { toneSettings } from "../../rig/pedals/tone.js";
import { dbToGain, gainToDb } from "../../sound/dsp/units.js";
import { amplified, filtered } from "./nodes.js";
import { always, perSide, type StandardModel } from "./standardModel.js";

/** Boost: a GainNode. */
export const standardBoost: StandardModel<typeof boostSettings> = {
  whyNot: always,
  wet: (pedal) => perSide(pedal, (input) => amplified(pedal.context, input, dbToGain(pedal.settings.gainDb))),
};

/** Tone control: two BiquadFilterNodes; the standard's shelves have slope 1. */
export const standardTone: StandardModel<typeof toneSettings> = {
  whyNot: always,
  wet: (pedal) => {
    const { bassDb, bassHz, trebleDb, trebleHz } = pedal.settings;
    return perSide(pedal, (input) =>
      filtered(pedal.context, input, [
        { type: "lowshelf", frequencyHz: bassHz, gainDb: bassDb },
        { type: "highshelf", frequencyHz: trebleHz, gainDb: trebleDb },
      ]),
    );
  },
};

/** Speaker: six BiquadFilterNodes; the standard has the Q of low- and high-pass in dB. */
export const standardSpeaker: StandardModel<typeof speakerSettings> = {
  whyNot: always,
  wet: (pedal) => {
    const { resonanceHz, presenceHz, presenceDb, rollOffHz } = pedal.settings;
    return perSide(pedal, (input) =>
      filtered(pedal.context, input, [
        { type: "highpass", frequencyHz: resonanceHz, q: gainToDb(resonanceQ) },
        { type: "peaking", frequencyHz: presenceHz, q: presenceQ, gainDb: presenceDb },
        ...butterworthQs.map((q) => ({ type: "lowpass", frequencyHz: rollOffHz, q: gainToDb(q) }) as const),
      ]),
    );
  },
};
