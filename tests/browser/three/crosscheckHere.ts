import type { Rig } from "../../../src/rig/model/rig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { initialiseFft } from "../../../src/sound/dsp/fft.js";
import { type CrosscheckedRouting, crosscheck } from "../../../src/work/crosscheck/crosscheck.js";
import { faults, faulty, mostTelling } from "../../work/crosscheck/faults.js";

/** Numbers as they travel into a page. */
export interface Sounds {
  readonly take: readonly number[];
  /** The clip "one". */
  readonly response: readonly number[];
  readonly rateHz: number;
  /** The binary of the FFT. */
  readonly fft: readonly number[];
}

/** A rig to be checked: all its routings, or with a fault those that tell most of it. */
export interface Checked {
  readonly rig: Rig;
  /** One of `faults`, in what the browser builds; none for null. */
  readonly fault: string | null;
}

declare global {
  interface Window {
    /** Rigs against this browser's own OfflineAudioContext. */
    crosscheckHere?: (
      sounds: Sounds,
      jobs: readonly Checked[],
    ) => Promise<readonly (readonly CrosscheckedRouting[])[]>;
  }
}

window.crosscheckHere = async ({ take, response, rateHz, fft }, jobs) => {
  await initialiseFft(Uint8Array.from(fft));
  const found: (readonly CrosscheckedRouting[])[] = [];
  for (const { rig, fault } of jobs) {
    const lay = fault === null ? null : faults[fault];
    found.push(
      await crosscheck({
        rig,
        routings: lay ? mostTelling(faulty(rig, lay)) : routingsOf(rig),
        take: { samples: Float32Array.from(take), rateHz },
        clips: new Map([["one", [Float32Array.from(response)]]]),
        openContext: (channels, frames, hz) => new OfflineAudioContext(channels, frames, hz),
        renderer: "browser",
        built: (wiring) => lay?.(wiring) ?? wiring,
      }),
    );
  }
  return found;
};
