import type { AxisGroup } from "../../rig/model/axis.js";

/** A sweep as the page shows it: plain JSON, columns of equal length, an entry a point. */
export interface PageSweep {
  /** Knobs of one group step together; groups are crossed, the last one fastest. */
  readonly vary: readonly AxisGroup[];
  readonly settings: number;
  /** Settings by routings; more than there are points where they are too many for a page. */
  readonly results: number;
  readonly routings: readonly string[];
  /** `sideShare>=0.2`, as they were wished. */
  readonly want: readonly string[];
  /** What the front is of; the first one counts most. */
  readonly aims: readonly { readonly measure: string; readonly better: "more" | "less" }[];
  /** Of the grid of settings, counted from 0. */
  readonly place: readonly number[];
  /** As sweep.csv counts it, from 1. */
  readonly setting: readonly number[];
  /** Number in `routings`. */
  readonly routing: readonly number[];
  /** 0 for those that stand beside a coarser grid, as the best or on the front; else 1. */
  readonly even: readonly (0 | 1)[];
  /** 1 is the best. */
  readonly rank: readonly number[];
  /** 1 on the trade-off front, else 0. */
  readonly front: readonly (0 | 1)[];
  /** 1 where every wish is met, 0 where one is missed, null where it takes a render to know. */
  readonly meets: readonly (0 | 1 | null)[];
  /** By name; six digits. */
  readonly figures: Readonly<Record<string, readonly (number | null)[]>>;
}
