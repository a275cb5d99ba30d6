import { impulseTail, singleImpulse } from "../../../work/compare/renderPart.js";
import { compile } from "../../../work/render/compile.js";
import { render } from "../../../work/render/render.js";
import type { ResponsesJob, ResponsesResult } from "./engineJobs.js";

/** Frames that each wiring's response to an impulse needs, as the measuring pass will find them. */
export function responseNeeds({ wirings, rateHz, clips, tail }: ResponsesJob): ResponsesResult {
  const graph = compile(
    wirings.map(({ wiring }) => wiring),
    { rateHz, clips },
  );
  let needs: readonly number[] = [];
  render(graph, {
    take: singleImpulse,
    rateHz,
    tail: impulseTail(tail),
    sink: () => {},
    onNeeds: (frames) => {
      needs = frames;
    },
  });
  return {
    needs: wirings.map(({ id }, n) => ({ id, frames: Math.max(needs[2 * n], needs[2 * n + 1]) })),
  };
}
