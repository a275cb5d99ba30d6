import { existsSync } from "node:fs";
import type { Rig } from "../../rig/model/rig.js";
import { chooseRoutings } from "../../rig/routings/chooseRoutings.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import { usualTakeChannel } from "../../sound/audio/takeIntake.js";
import { initialiseFft } from "../../sound/dsp/fft.js";
import { UserError } from "../../text/userError.js";
import type { ProofReport } from "../../work/proof/proofReport.js";
import { usualTailSeconds } from "../../work/render/tail.js";
import { leavesReturnsOpen, withMeasuredReturns } from "../../work/returns/measuredReturns.js";
import { readTake } from "../audio/readTake.js";
import { loadClips } from "../rig/rigClips.js";
import { takePath } from "../rig/takePath.js";

/** A plan as somebody builds it. */
export interface PlannedWiring {
  readonly wiring: Wiring;
  readonly plan: ProofReport["plan"];
  readonly returnsBy: ProofReport["returnsBy"];
}

/**
 * The wiring of a plan; returns that the rig leaves open as loud as `compare` says on the rig's own take.
 * @throws UserError for a word that is no plan of this rig, or one that is not possible
 */
export async function plannedWiring(rig: Rig, rigFile: string | null, word: string): Promise<PlannedWiring> {
  const choice = chooseRoutings(rig, [word], null);
  const open = leavesReturnsOpen(rig, choice.routings);
  const take = open && rigFile !== null ? takePath(rig, rigFile) : null;
  if (take === null || !existsSync(take)) return planned(choice, open ? "estimate" : "rig");
  const { samples, rateHz } = await readTake(take, {
    channel: usualTakeChannel(rig.instrument.outputs),
    allowTruncated: false,
  });
  await initialiseFft();
  const clips = await loadClips(rig, rigFile, rateHz);
  const sound = { take: samples, rateHz, clips, tailSeconds: usualTailSeconds };
  return planned(withMeasuredReturns(rig, choice, sound).choice, "take");
}

function planned(
  { routings }: ReturnType<typeof chooseRoutings>,
  returnsBy: PlannedWiring["returnsBy"],
): PlannedWiring {
  const routing = routings.find(({ wiring }) => wiring !== null);
  if (!routing?.wiring) throw new UserError("there is no such wiring.");
  return { wiring: routing.wiring, plan: { id: routing.id, label: routing.label }, returnsBy };
}
