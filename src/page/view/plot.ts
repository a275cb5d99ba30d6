/** The charting library, named here alone. */

export type { Markish, PlotOptions } from "@observablehq/plot";
export * as Plot from "@observablehq/plot";
