import { modelOf } from "../../rig/pedals/models.js";
import type { PedalUse } from "../../rig/pedals/pedalModel.js";
import { intoPedal } from "../../rig/wiring/boxGains.js";
import type { PedalBox } from "../../rig/wiring/wiring.js";
import type { Block, Kernel } from "../../sound/dsp/kernel.js";
import { type CheckedSound, checkedInterpolation } from "./checkedSound.js";

/** Impulse responses, `taps[output][input]`; empty where nothing comes out. */
export type Taps = readonly (readonly Float32Array[])[];

/** How many channels a pedal's effect hears. */
export const heardBy = (box: PedalBox): 1 | 2 => (intoPedal(box).length === 2 ? 2 : 1);

/**
 * What a pedal's own kernel makes of a single 1 at each input, at each output, without the lag that it says it has: all
 * there is to know of one that `isFilter`. What is left of it 150 dB under its energy is cut off.
 *
 * @param frames  how much of it can be heard
 */
export function ownResponse(
  box: PedalBox,
  { rateHz, clips }: Pick<CheckedSound, "rateHz" | "clips">,
  frames: number,
): Taps {
  const { pedal, outputs } = box;
  const model = modelOf(pedal.model);
  const heard = heardBy(box);
  const use: PedalUse = { rateHz, clips, inputs: heard, outputs, interpolation: checkedInterpolation };
  const lag = model.latencyFrames?.(pedal.settings, rateHz) ?? 0;
  const byInput = Array.from({ length: heard }, (_, input) =>
    answered(model.kernel(pedal.settings, use), { input, inputs: heard, outputs, frames: lag + frames }),
  );
  return Array.from({ length: outputs }, (_, output) =>
    byInput.map((response) => trimmed(response[output].subarray(lag))),
  );
}

const blockFrames = 1024;

interface Asked {
  readonly input: number;
  readonly inputs: number;
  readonly outputs: number;
  readonly frames: number;
}

/** All outputs, for a 1 at one input. */
function answered(kernel: Kernel, { input, inputs, outputs, frames }: Asked): Block {
  const sound = Array.from({ length: outputs }, () => new Float32Array(frames));
  const fed = Array.from({ length: inputs }, () => new Float32Array(blockFrames));
  fed[input][0] = 1;
  for (let from = 0; from < frames; from += blockFrames) {
    const count = Math.min(blockFrames, frames - from);
    kernel.process(
      fed,
      sound.map((channel) => channel.subarray(from, from + count)),
      count,
    );
    fed[input][0] = 0;
  }
  return sound;
}

/** As a share of the energy: -150 dB. */
const leftOver = 1e-15;

function trimmed(response: Float32Array): Float32Array {
  const energy = response.reduce((sum, sample) => sum + sample * sample, 0);
  let end = response.length;
  for (let left = 0; end > 0; end--) {
    left += response[end - 1] ** 2;
    if (left > leftOver * energy) break;
  }
  return response.slice(0, end);
}
