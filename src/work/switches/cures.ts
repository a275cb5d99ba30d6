import { returnsOf } from "../../rig/wiring/returns.js";
import type { PedalBox, Wiring } from "../../rig/wiring/wiring.js";
import type { Cure } from "./switchTypes.js";

/** Where a box stands, as far as cures go. */
export interface Surroundings {
  readonly box: PedalBox;
  /** The mixer input that all its ways lead to, when that is an effect's return. */
  readonly returnTo: string | null;
  /** The other box of the same pedal, on the other side. */
  readonly partner: string | null;
}

export function surroundingsOf(box: PedalBox, wiring: Wiring): Surroundings {
  const partner = wiring.boxes.find(
    (other) => other.kind === "pedal" && other !== box && other.pedal.name === box.pedal.name && other.isUnit,
  );
  return { box, returnTo: returnOf(box.id, wiring), partner: partner?.label ?? null };
}

/** Takes the dry sound out of the branch: what the return's mute does, and kill-dry with trails. */
export function muteCure({ box, returnTo }: Surroundings, levelJumpLu: number | null): Cure {
  return {
    kind: "mute",
    says: `mute its return (${returnTo}) instead of switching ${box.label} off, or have it mute when off (kill-dry with trails)`,
    levelJumpLu,
  };
}

/** Brings on and off to one level. */
export function trimCure({ box }: Surroundings, jumpLu: number): Cure {
  const levelDb = box.pedal.levelDb + jumpLu;
  const way = jumpLu > 0 ? "turn its output up" : "turn its output down";
  return {
    kind: "trim",
    says: `${way} by ${Math.abs(jumpLu).toFixed(1)} dB (levelDb: ${levelDb.toFixed(1)}), so that on and off are alike`,
    levelJumpLu: null,
  };
}

/** Two units of one pedal by one foot. */
export const bothCure = ({ box, partner }: Surroundings, levelJumpLu: number | null): Cure => ({
  kind: "both",
  says: `press ${[box.label, partner].sort().join(" and ")} at once: one switcher loop or relay for the pair`,
  levelJumpLu,
});

export const relayCure = ({ box }: Surroundings): Cure => ({
  kind: "relay",
  says: `put ${box.label} into a relay loop (true bypass): off, its latency is gone`,
  levelJumpLu: null,
});

export const keepLatencyCure = ({ box }: Surroundings): Cure => ({
  kind: "keep-latency",
  says: `leave ${box.label} on and turn its mix down instead, or bypass it by its buffer, so that its latency stays`,
  levelJumpLu: null,
});

export const killDryCure = ({ box }: Surroundings): Cure => ({
  kind: "kill-dry",
  says: `the comb is ${box.label}'s own leak while it is on: run it kill-dry, or use a unit that goes fully wet`,
  levelJumpLu: null,
});

export const polarityCure = ({ box }: Surroundings): Cure => ({
  kind: "polarity",
  says: `put a polarity-inverting buffer behind ${box.label} and switch both by one relay loop`,
  levelJumpLu: null,
});

export const passCure = ({ box }: Surroundings): Cure => ({
  kind: "pass",
  says: `${box.label} mutes when off and stands in line: turn its kill-dry off here, so that it passes its input`,
  levelJumpLu: null,
});

/** "Mixer, in 2 (mono)" when every way from a box ends in a return; else null. */
function returnOf(id: string, wiring: Wiring): string | null {
  const boxes = new Map(wiring.boxes.map((box) => [box.id, box]));
  const ends = (from: string): (string | null)[] =>
    wiring.cables
      .filter((cable) => cable.from.box === from)
      .flatMap(({ to }) => {
        const next = boxes.get(to.box);
        if (next?.kind === "mixer") {
          return [returnsOf(next, wiring).includes(to.jack) ? `${next.label}, ${to.jack}` : null];
        }
        return next?.kind === "destination" ? [null] : ends(to.box);
      });
  const found = ends(id);
  return found.length > 0 && found.every((end) => end !== null) ? found.join(" and ") : null;
}
