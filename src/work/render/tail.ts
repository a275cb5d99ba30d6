import type { Rig } from "../../rig/model/rig.js";
import { modelOf } from "../../rig/pedals/models.js";
import type { TailRule } from "./render.js";

/** A tail ends 60 dB down: what is left is below the noise of any room (ISO 3382-1 measures decay over 60 dB). */
const tailDropDb = 60;

/** The take alone, and no tail. */
export const noTail: TailRule = { dropDb: tailDropDb, capSeconds: 0, silenceSeconds: 0 };
/** Tails are cut here unless a person says otherwise. */
export const usualTailSeconds = 20;

/** The tail rule of a rig: it may fall silent for as long as all its delays one after the other. */
export function tailRule(rig: Rig, capSeconds: number): TailRule {
  const silenceMs = rig.pedals.reduce(
    (sum, { model, settings, latencyMs }) => sum + modelOf(model).silenceMs(settings) + latencyMs,
    0,
  );
  return { dropDb: tailDropDb, capSeconds, silenceSeconds: silenceMs / 1000 };
}
