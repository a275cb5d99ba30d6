import type { ToneSettings } from "../capture/toneSettings.js";

/** What differs from the usual test tone: a board rings less long than a reverb under test, and is recorded often. */
export const proofTone: Partial<ToneSettings> = { lengthSeconds: 5, gapSeconds: 1.5, leadInSeconds: 2 };
