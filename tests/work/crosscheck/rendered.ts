import { openOffline } from "../../../src/node/crosscheck/openOffline.js";
import type { Rig } from "../../../src/rig/model/rig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import {
  type CrosscheckedRouting,
  type CrosscheckOptions,
  crosscheck,
} from "../../../src/work/crosscheck/crosscheck.js";
import { noise } from "../../signals.js";

const openContext = await openOffline();

/** Noise of -17 dBFS: every frequency at once. */
export const takeOf = (seconds: number, rateHz: number): Float32Array =>
  noise({ seed: 4, frames: Math.round(seconds * rateHz), rms: 0.1 });

/** Noise that falls by 60 dB: what a room or a tank might answer. */
const decaying = (seed: number, seconds: number, rateHz: number): Float32Array => {
  const frames = Math.round(seconds * rateHz);
  return noise({ seed, frames }).map((x, n) => x * 10 ** ((-3 * n) / frames));
};

/** All routings of a rig by both engines, or those asked for; the clip "one", "two" or "four" is a response of so many channels. */
export function checked(
  rig: Rig,
  { rateHz = 48_000, seconds = 0.5, responseSeconds = 0.2 } = {},
  more: Partial<Pick<CrosscheckOptions, "routings" | "built">> = {},
): Promise<readonly CrosscheckedRouting[]> {
  const channels = [1, 2, 3, 4].map((seed) => decaying(seed, responseSeconds, rateHz));
  const clips = new Map([
    ["one", channels.slice(0, 1)],
    ["two", channels.slice(0, 2)],
    ["four", channels],
  ]);
  const take = { samples: takeOf(seconds, rateHz), rateHz };
  return crosscheck({
    rig,
    routings: routingsOf(rig),
    take,
    clips,
    openContext,
    renderer: "library",
    ...more,
  });
}
