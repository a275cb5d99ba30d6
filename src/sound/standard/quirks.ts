import { loopLateness, type OpenOffline } from "./loop.js";
import { played } from "./nodes.js";

/** Where engines differ that all mean to follow the standard; each is measured in the one at hand. */
export interface Quirks {
  /** See `loop.ts`; 0 by the standard. */
  readonly loopLateFrames: number;
  /** A BiquadFilterNode's frequency stands still for a render quantum, where by the standard it follows frame by frame. */
  readonly holdsFilters: boolean;
}

/** An engine as the standard has it. */
export const noQuirks: Quirks = { loopLateFrames: 0, holdsFilters: false };

export const quirksOf = async (openContext: OpenOffline, rateHz: number): Promise<Quirks> => ({
  loopLateFrames: await loopLateness(openContext, rateHz),
  holdsFilters: await holdsFilters(openContext, rateHz),
});

/** A low-pass goes eight octaves down in mid-quantum, before any sound: a single 1 behind that must find it there. */
async function holdsFilters(openContext: OpenOffline, rateHz: number): Promise<boolean> {
  const [turnedAt, soundAt, frames] = [40, 80, 128];
  const context = openContext(1, frames, rateHz);
  const filter = context.createBiquadFilter();
  filter.type = "lowpass";
  filter.frequency.value = rateHz / 4;
  played(context, new Float32Array(frames).fill(-9600, turnedAt)).connect(filter.detune);
  played(context, new Float32Array(frames).fill(1, soundAt, soundAt + 1)).connect(filter);
  filter.connect(context.destination);
  const sound = (await context.startRendering()).getChannelData(0);
  // At a quarter of the rate half of a 1 passes at once, eight octaves lower next to nothing.
  return Math.abs(sound[soundAt]) > 0.05;
}
