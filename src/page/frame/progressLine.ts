import type { Bench } from "../contract/bench.js";
import type { PagePart } from "../panels/view.js";
import { ProgressBar } from "../widgets/progressBar.js";

/** How far a render is, in a corner of the window where it moves nothing. */
export function progressLine(bench: Bench): PagePart {
  const bar = new ProgressBar("progress", "Rendering");
  const update = () => bar.show(bench.progress);
  update();
  return { node: bar.node, update };
}
