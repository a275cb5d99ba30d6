import { drawPlot, Plot } from "./plots/plot.js";
import type { RoutingMark } from "./routingMark.js";

/** A short piece of a routing's line with its mark, as the plots draw it. Says nothing to a reader: its name stands beside it. */
export function swatch({ colour, dash, symbol }: RoutingMark): Element {
  const drawn = drawPlot({
    width: 40,
    height: 16,
    margin: 0,
    axis: null,
    x: { domain: [0, 40], range: [0, 40] },
    y: { domain: [0, 16], range: [16, 0] },
    marks: [
      Plot.ruleY([8], { x1: 1, x2: 39, stroke: colour, strokeWidth: 2, strokeDasharray: dash }),
      Plot.dot([[20, 8]], { symbol, r: 4.2, fill: colour, stroke: "var(--paper)", strokeWidth: 1 }),
    ],
  });
  drawn.setAttribute("aria-hidden", "true");
  drawn.classList.add("swatch");
  return drawn;
}
