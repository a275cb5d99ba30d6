import type { Rig } from "../../src/rig/model/rig.js";
import { routingsOf } from "../../src/rig/routings/routingsOf.js";
import { initialiseFft } from "../../src/sound/dsp/fft.js";
import { type CrosscheckedRouting, crosscheck } from "../../src/work/crosscheck/crosscheck.js";

/** Numbers as they travel into a page. */
interface Sounds {
  readonly take: readonly number[];
  /** The clip "one". */
  readonly response: readonly number[];
  readonly rateHz: number;
  /** The binary of the FFT. */
  readonly fft: readonly number[];
}

declare global {
  interface Window {
    /** Rigs against this browser's own OfflineAudioContext. */
    crosscheckHere?: (
      sounds: Sounds,
      rigs: readonly Rig[],
    ) => Promise<readonly (readonly CrosscheckedRouting[])[]>;
  }
}

window.crosscheckHere = async ({ take, response, rateHz, fft }, rigs) => {
  await initialiseFft(Uint8Array.from(fft));
  const found: (readonly CrosscheckedRouting[])[] = [];
  for (const rig of rigs) {
    found.push(
      await crosscheck({
        rig,
        routings: routingsOf(rig),
        take: { samples: Float32Array.from(take), rateHz },
        clips: new Map([["one", [Float32Array.from(response)]]]),
        renderer: "browser",
        openContext: (channels, frames, hz) => new OfflineAudioContext(channels, frames, hz),
      }),
    );
  }
  return found;
};
