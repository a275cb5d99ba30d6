import type { Routing } from "../../rig/routings/routing.js";
import type { BuildSheet } from "../../rig/wiring/buildSheet.js";
import type { Measures } from "../../sound/measure/measures.js";

/** A sum of what the rig gives; `open` names what it leaves out, so that the true figure may be higher. */
export interface Sum {
  readonly known: number;
  readonly open: readonly string[];
}

/** What decides between wirings. Null where a figure does not exist. */
export interface Merits {
  /** Share of the reference's width, both taken with their sides balanced: `balancedSideShare`. */
  readonly width: number | null;
  readonly monoLossDb: number | null;
  /** Price of what is to buy. */
  readonly cost: Sum;
  readonly boxes: number;
  readonly outlets: Sum;
  readonly milliamps: Sum;
  readonly boardCm2: Sum;
}

/** What was found of a routing; null where it was not rendered, or has no wiring. */
export interface FoundRouting {
  readonly id: string;
  readonly measures: Measures | null;
  readonly build: BuildSheet | null;
}

/** A wiring that could be the answer. */
export interface Candidate {
  readonly routing: Routing;
  readonly merits: Merits;
}

/**
 * Side share once both sides have been brought to one energy: (1 - correlation) / 2. A louder side is no width by it: one
 * signal at two levels gives 0, however lopsided it is.
 * @param measures  of a sound; null where a side is silent, which leaves no image at all: 0
 * @returns 0 mono, 0.5 unrelated sides, 1 opposite polarity; null for silence
 * Source: S = (L - R) / sqrt 2, M = (L + R) / sqrt 2 with E(L) = E(R) = E: E(S) / (E(M) + E(S)) = (E - sum L R) / 2E.
 */
export function balancedSideShare({
  correlation,
  sideShare,
}: Pick<Measures, "correlation" | "sideShare">): number | null {
  if (correlation !== null) return (1 - correlation) / 2;
  return sideShare === null ? null : 0;
}

/** @param reference  figures of what width is compared with; null where there is nothing */
export function meritsOf(
  { measures, build }: { readonly measures: Measures; readonly build: BuildSheet },
  reference: Measures | null,
): Merits {
  const share = balancedSideShare(measures);
  const whole = reference === null ? null : balancedSideShare(reference);
  const { supply, supplyUnknown, boardAreaCm2, areaUnknown, price, priceUnknown } = build;
  return {
    width: share === null || whole === null || whole <= 0 ? null : share / whole,
    monoLossDb: measures.foldDownLossDb,
    cost: { known: price ?? 0, open: priceUnknown },
    boxes: build.extraBoxes,
    outlets: { known: supply.reduce((sum, { outlets }) => sum + outlets, 0), open: supplyUnknown },
    milliamps: { known: supply.reduce((sum, { milliamps }) => sum + milliamps, 0), open: supplyUnknown },
    boardCm2: { known: boardAreaCm2 ?? 0, open: areaUnknown },
  };
}

/** Over several takes: the least width and the most lost in mono; what it is built of is the same on all. */
export function worstOf(each: readonly Merits[]): Merits {
  const known = (values: readonly (number | null)[]) => values.filter((value) => value !== null);
  const widths = known(each.map(({ width }) => width));
  const losses = known(each.map(({ monoLossDb }) => monoLossDb));
  return {
    ...each[0],
    width: widths.length < each.length ? null : Math.min(...widths),
    monoLossDb: losses.length < each.length ? null : Math.max(...losses),
  };
}

/** Wirings of a comparison that sound, with their merits; recordings and the dry take are none, and silence has none. */
export function candidatesOf(
  routings: readonly Routing[],
  reports: readonly FoundRouting[],
  reference: Measures | null,
): readonly Candidate[] {
  const byId = new Map(reports.map((report) => [report.id, report]));
  return routings.flatMap((routing) => {
    const { measures = null, build = null } = byId.get(routing.id) ?? {};
    return measures && measures.sideShare !== null && build
      ? [{ routing, merits: meritsOf({ measures, build }, reference) }]
      : [];
  });
}
