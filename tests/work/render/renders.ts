import type { Rig } from "../../../src/rig/model/rig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import type { Wiring } from "../../../src/rig/wiring/wiring.js";
import { compile } from "../../../src/work/render/compile.js";
import { render } from "../../../src/work/render/render.js";

export type Stereo = readonly [left: Float32Array, right: Float32Array];

/** Renders wirings of one graph, whole. */
export function renderWirings(
  wirings: readonly Wiring[],
  take: Float32Array,
  rateHz: number,
  {
    tailSeconds = 0,
    blockFrames = 1024,
    clips = new Map<string, readonly Float32Array[]>(),
  }: {
    readonly tailSeconds?: number;
    readonly blockFrames?: number;
    readonly clips?: ReadonlyMap<string, readonly Float32Array[]>;
  } = {},
): readonly Stereo[] {
  const graph = compile(wirings, { rateHz, blockFrames, clips });
  const parts: Float32Array[][] = graph.outputs.map(() => []);
  render(graph, {
    take,
    rateHz,
    tail: { dropDb: 60, capSeconds: tailSeconds, silenceSeconds: 0.5 },
    sink: (outputs, frames) => {
      for (const [n, output] of outputs.entries()) parts[n].push(output.slice(0, frames));
    },
  });
  const whole = parts.map(joined);
  return wirings.map((_, n) => [whole[2 * n], whole[2 * n + 1]]);
}

/** Every possible routing of a rig, rendered, by id. */
export function renderRig(
  rig: Rig,
  take: Float32Array,
  rateHz: number,
  options: { tailSeconds?: number; blockFrames?: number } = {},
): Record<string, Stereo> {
  const possible = routingsOf(rig).flatMap(({ id, wiring }) => (wiring ? [{ id, wiring }] : []));
  const renders = renderWirings(
    possible.map(({ wiring }) => wiring),
    take,
    rateHz,
    options,
  );
  return Object.fromEntries(possible.map(({ id }, n) => [id, renders[n]]));
}

function joined(parts: readonly Float32Array[]): Float32Array {
  const whole = new Float32Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
