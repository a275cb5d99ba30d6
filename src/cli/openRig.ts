import { dryId } from "../compare/dryWiring.js";
import type { PathFault } from "../rig/faults.js";
import { readRigText } from "../rig/readRig.js";
import type { Rig } from "../rig/rig.js";
import { handFaults } from "../routings/handDrawn.js";
import { routingIds } from "../routings/routing.js";

/** A rig whose hand-drawn wirings have been checked as well, so that their faults have lines and columns too. */
export async function openRig(path: string): Promise<Rig> {
  const { rig, faultsAt } = await readRigText(path);
  const faults = [...takenIds(rig), ...handFaults(rig)];
  if (faults.length > 0) throw faultsAt(faults);
  return rig;
}

/** Ids of hand-drawn wirings that mean something already: files and rows would carry one name. */
function takenIds(rig: Rig): readonly PathFault[] {
  const taken: readonly string[] = [...routingIds, "as-given", dryId];
  return Object.keys(rig.wirings)
    .filter((id) => taken.includes(id))
    .map((id) => ({
      path: ["wirings", id],
      message: `"${id}" has a meaning already, as have ${taken.join(", ")}. Give the wiring another id.`,
      atKey: true,
    }));
}
