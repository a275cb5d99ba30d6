import { modelOf } from "../../rig/pedals/models.js";
import { isWet } from "../../rig/wiring/boxGains.js";
import type { PedalBox, Wiring } from "../../rig/wiring/wiring.js";
import { type Nearness, rounding } from "../../sound/standard/nearness.js";
import { noQuirks, type Quirks } from "../../sound/standard/quirks.js";
import type { GivenEffect } from "./buildWiring.js";

/** How the second engine comes by a pedal's effect; all around the effect is of standard nodes in any case. */
export type JudgedBy = "nodes" | GivenEffect["by"];

/** A pedal whose effect is heard. */
export interface JudgedEffect {
  readonly box: PedalBox;
  readonly by: JudgedBy;
  /** Why no standard nodes make its effect, as the end of a sentence; null where they do. */
  readonly why: string | null;
  /** How near the second engine comes to the effect. */
  readonly nearness: Nearness;
}

/**
 * Every pedal of a wiring whose effect is heard, and how that is judged: of standard nodes where there are such; else by
 * its own impulse response where that tells all of it; else its sound is handed over.
 */
export const judgedEffects = (
  { boxes }: Wiring,
  rateHz: number,
  quirks: Quirks = noQuirks,
): readonly JudgedEffect[] =>
  boxes.flatMap((box): readonly JudgedEffect[] => {
    if (box.kind !== "pedal" || !isWet(box)) return [];
    const { standard, isFilter } = modelOf(box.pedal.model);
    const { settings } = box.pedal;
    const why = typeof standard === "string" ? standard : standard.whyNot(settings, rateHz, quirks);
    if (typeof standard !== "string" && why === null)
      return [{ box, by: "nodes", why, nearness: standard.nearness(settings, rateHz) }];
    return [{ box, by: isFilter(settings) ? "response" : "hand-over", why, nearness: rounding }];
  });
