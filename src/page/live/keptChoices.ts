import type { Rig } from "../../rig/model/rig.js";
import type { Routing } from "../../rig/routings/routing.js";
import { routingNamed } from "../../rig/routings/routingsOf.js";

/** A routing as it was when it was kept: the rig of that moment, returns measured and all. Plain data. */
export interface Kept {
  readonly id: string;
  readonly label: string;
  readonly routing: string;
  readonly rig: Rig;
}

/** What was kept, as routings to stand beside those of the rig; the answer is not chosen among them. */
export function keptRouting({ id, label, routing, rig }: Kept): Routing {
  const found = routingNamed(rig, routing);
  if (typeof found === "string") throw new Error(found);
  return { ...found, id, label, says: `Kept: ${found.says}`, keptFrom: rig };
}

/** One more that is kept, under an id and a label of its own; none where the very same is kept under that label already. */
export function withKept(
  kept: readonly Kept[],
  what: Omit<Kept, "id">,
  taken: readonly string[],
): readonly Kept[] {
  const named = kept.filter(({ label }) => label === what.label);
  if (named.some((each) => isSame(each, what))) return kept;
  const ids = [...taken, ...kept.map(({ id }) => id)];
  let n = 1;
  while (ids.includes(`kept-${n}`)) n++;
  const labels = kept.map((each) => each.label);
  let label = what.label;
  for (let time = 2; labels.includes(label); time++) label = `${what.label} (${time})`;
  return [...kept, { ...what, id: `kept-${n}`, label }];
}

const isSame = (one: Omit<Kept, "id">, other: Omit<Kept, "id">): boolean =>
  one.routing === other.routing && JSON.stringify(one.rig) === JSON.stringify(other.rig);
