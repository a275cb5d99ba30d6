import { type PlotOptions, plot } from "@observablehq/plot";

export type { Markish } from "@observablehq/plot";
/** The charting library, named here alone. */
export * as Plot from "@observablehq/plot";

export type DrawnPlot = ReturnType<typeof plot>;
export type PlotScale = ReturnType<DrawnPlot["scale"]>;

/** Draws a chart that is one picture to a screen reader: the library's labels of its parts go, the caller names the whole. */
export function drawPlot(options: PlotOptions): DrawnPlot {
  const drawn = plot(options);
  for (const part of drawn.querySelectorAll("[aria-label], [aria-description]")) {
    part.removeAttribute("aria-label");
    part.removeAttribute("aria-description");
  }
  return drawn;
}
