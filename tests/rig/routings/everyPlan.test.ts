import { expect, test } from "vitest";
import type { Rig } from "../../../src/rig/model/rig.js";
import { leftOut } from "../../../src/rig/routings/leftOut.js";
import { mixedPlans } from "../../../src/rig/routings/mixedPlans.js";
import { planRouting, routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { sixRigs } from "./sixRigs.js";
import { sketch } from "./sketch.js";

/** Every plan of a rig as lines of cables, and what is left out. */
function writtenOut(rig: Rig): string {
  const { plans, total } = mixedPlans(rig, 1000);
  const routings = [...routingsOf(rig), ...plans.map((plan) => planRouting(rig, plan))];
  const plan = routings.map(({ id, label, wiring, reason, doubt }) =>
    [
      `${id}: ${label}`,
      ...(doubt ? [`  ! ${doubt}`] : []),
      ...(wiring ? sketch(wiring).map((line) => `  ${line}`) : [`  not possible. ${reason}`]),
    ].join("\n"),
  );
  const out = leftOut(rig).map(({ what, reason }) => `not ${what}: ${reason}`);
  return [...plan, `${total} mixed plans`, ...out].join("\n\n").concat("\n");
}

/** Checked by hand, cable by cable, when they were written; a change here is to be checked so again. */
test.each(Object.entries(sixRigs))("%s: every cable of every plan", async (name, rig) => {
  await expect(writtenOut(rig)).toMatchFileSnapshot(`plans/${name.replaceAll(/[^a-z0-9]+/g, "-")}.txt`);
});
