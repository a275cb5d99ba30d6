import type { PedalUse } from "../../rig/pedals/pedalModel.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import { type HeldTake, takePart } from "../../sound/audio/takeSource.js";
import { msToFrames, secondsToFrames } from "../../sound/dsp/units.js";
import { compile } from "../render/compile.js";
import { render } from "../render/render.js";
import { noTail } from "../render/tail.js";

/** What is pressed, and on what. */
export interface PressJob {
  /** The other switches as they stand. */
  readonly wiring: Wiring;
  /** Ids of the footswitches that are pressed, together. */
  readonly switches: ReadonlySet<string>;
  readonly to: "on" | "off";
  /** Full scale 1. */
  readonly take: HeldTake;
  readonly rateHz: number;
  readonly clips: PedalUse["clips"];
}

/** Length of the fade at the press: no click, and about as long as a relay or an electronic switch takes. */
const fadeMs = 5;
/** At most so much is kept before the press, and as much behind it. */
const mostSeconds = 30;

/**
 * The take through a wiring whose footswitch is pressed in its middle, left and right; of a take longer than a minute
 * the 30 s either side. One engine runs all along, so that what follows the pedal rings on: a pedal that mutes leaves its
 * trail, one by true bypass is cut off, and turned on it starts empty.
 */
export function renderPress({
  wiring,
  switches,
  to,
  take,
  rateHz,
  clips,
}: PressJob): readonly [left: Float32Array, right: Float32Array] {
  const middle = Math.floor(take.length / 2);
  const reach = secondsToFrames(mostSeconds, rateHz);
  const [first, end] = [Math.max(0, middle - reach), Math.min(take.length, middle + reach)];
  const sides = [new Float32Array(end - first), new Float32Array(end - first)] as const;
  const fadeFrames = Math.round(msToFrames(fadeMs, rateHz));
  const press = { switches, to, frame: middle - Math.floor(fadeFrames / 2), fadeFrames };
  const graph = compile([wiring], { rateHz, clips, press });
  let frame = 0;
  render(graph, {
    take: takePart(take, 0, end),
    rateHz,
    tail: noTail,
    watched: 0,
    sink: (outputs, frames) => {
      const from = Math.max(0, first - frame);
      if (from < frames) {
        for (const [n, side] of sides.entries())
          side.set(outputs[n].subarray(from, frames), frame + from - first);
      }
      frame += frames;
    },
  });
  return sides;
}
