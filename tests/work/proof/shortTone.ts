import { toneSettingsOf } from "../../../src/work/capture/toneSettings.js";

/** A tone that is short and low, so that boards are proven quickly. */
export const shortTone = toneSettingsOf({
  rateHz: 12_000,
  toHz: 5400,
  lengthSeconds: 0.7,
  gapSeconds: 0.9,
  leadInSeconds: 0.4,
});
