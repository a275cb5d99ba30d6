import { groupMeasure } from "./groupMeasure.js";
import { foundOr } from "./measure.js";

export const combMeasure = groupMeasure({
  id: "comb",
  from: "rig",
  needs: ["comb"],
  value: ({ comb }) => comb,
  find: ({ comb }) => foundOr("comb", comb, () => "no late copy of the dry signal meets it"),
  means: "where a late copy of the dry signal meets it: the delay, its level, the first notches",
  source: "closed form, by the wiring",
  fields: {
    combDelayMs: {
      of: ({ delayMs }) => delayMs,
      name: "comb delay",
      unit: "ms",
      format: { fixed: 2 },
      better: null,
    },
    combLevelDb: {
      of: ({ levelDb }) => levelDb,
      name: "comb level",
      unit: "dB",
      format: { fixed: 1 },
      better: "less",
    },
    combInverted: { of: ({ inverted }) => inverted },
    combSide: { of: ({ side }) => side },
    combFirstNotchHz: {
      of: ({ notchesHz }) => notchesHz[0] ?? null,
      name: "comb, first notch",
      unit: "Hz",
      format: { fixed: 0 },
      better: null,
    },
  },
});
