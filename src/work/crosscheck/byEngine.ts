import type { Rig } from "../../rig/model/rig.js";
import { intoPedal } from "../../rig/wiring/boxGains.js";
import type { PedalBox, Wiring } from "../../rig/wiring/wiring.js";
import { takePart } from "../../sound/audio/takeSource.js";
import type { Block } from "../../sound/dsp/kernel.js";
import { secondsToFrames } from "../../sound/dsp/units.js";
import { meanSquareToDbfs } from "../levels/dbu.js";
import { compile, compileInside } from "../render/compile.js";
import { render } from "../render/render.js";
import { noTail, tailRule } from "../render/tail.js";
import { type CheckedSound, checkedInterpolation, checkedTailSeconds } from "./checkedSound.js";

/** Left and right of every wiring by our engine, all of one length: until all tails have died, or are cut. */
export function byEngine(
  rig: Rig,
  wirings: readonly Wiring[],
  { take, rateHz, clips }: CheckedSound,
): readonly Block[] {
  const graph = compile(wirings, { rateHz, clips, interpolation: checkedInterpolation });
  const most = take.length + secondsToFrames(checkedTailSeconds, rateHz);
  const channels = graph.outputs.map(() => new Float32Array(most));
  let at = 0;
  const frames = render(graph, {
    take,
    rateHz,
    tail: tailRule(rig, checkedTailSeconds),
    sink: (outputs, count) => {
      for (let k = 0; k < channels.length; k++) channels[k].set(outputs[k].subarray(0, count), at);
      at += count;
    },
  });
  return wirings.map((_, n) =>
    channels.slice(2 * n, 2 * n + 2).map((channel) => channel.subarray(0, frames)),
  );
}

/** What goes on inside a wiring. */
export interface Inside {
  /** RMS of the loudest signal in it, a full-scale sine at 0. */
  readonly loudestDbfs: number;
  /** Of each pedal asked for, by box id, what its effect hears and what it gives. */
  readonly effects: ReadonlyMap<string, { readonly heard: Block; readonly gives: Block }>;
}

/** The same, of the inside of one wiring, `frames` of it. */
export function insideByEngine(
  wiring: Wiring,
  pedals: readonly PedalBox[],
  { take, rateHz, clips }: CheckedSound,
  frames: number,
): Inside {
  const graph = compileInside(
    wiring,
    pedals.map(({ id }) => id),
    { rateHz, clips, interpolation: checkedInterpolation },
  );
  const energies = new Float64Array(graph.outputs.length);
  const cables = wiring.cables.length;
  const kept = graph.outputs.slice(cables).map(() => new Float32Array(frames));
  let at = 0;
  render(graph, {
    take: takePart(take, 0, Math.min(frames, take.length)),
    rateHz,
    tail: noTail,
    watched: 0,
    agree: () => frames,
    sink: (outputs, count) => {
      outputs.forEach((output, n) => {
        for (let k = 0; k < count; k++) energies[n] += output[k] * output[k];
        if (n >= cables) kept[n - cables].set(output.subarray(0, count), at);
      });
      at += count;
    },
  });
  const effects = pedals.map((box) => {
    const heard = kept.splice(0, intoPedal(box).length);
    return [box.id, { heard, gives: kept.splice(0, box.outputs) }] as const;
  });
  return { loudestDbfs: meanSquareToDbfs(Math.max(0, ...energies) / frames), effects: new Map(effects) };
}
