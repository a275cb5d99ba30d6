import { withUnitsMuted } from "../../../src/rig/wiring/muted.js";
import type { Wiring } from "../../../src/rig/wiring/wiring.js";
import type { Facts, Known } from "../../../src/sound/measure/facts.js";
import { FactsMeter } from "../../../src/sound/measure/factsMeter.js";
import { compile } from "../../../src/work/render/compile.js";
import { render } from "../../../src/work/render/render.js";
import { exactly } from "../../../src/work/sweep/renderBlock.js";

/** What measures read of one wiring, rendered by itself as if there were no sweep. */
export function bruteForce(
  wiring: Wiring,
  take: Float32Array,
  rateHz: number,
  frames: number,
): Known & Pick<Facts, "whole" | "wetAndDry"> {
  const muted = withUnitsMuted(wiring);
  const graph = compile(muted ? [wiring, muted] : [wiring], { rateHz });
  const meter = new FactsMeter(rateHz);
  let wet = 0;
  let dry = 0;
  render(graph, {
    take,
    rateHz,
    ...exactly(frames),
    sink: ([left, right, dryLeft, dryRight], count) => {
      meter.push(left, right, count);
      for (let n = 0; muted && n < count; n++) {
        wet += (left[n] - dryLeft[n]) ** 2 + (right[n] - dryRight[n]) ** 2;
        dry += dryLeft[n] ** 2 + dryRight[n] ** 2;
      }
    },
  });
  return { ...meter.facts(), wetAndDry: muted ? { wet, dry } : null };
}
