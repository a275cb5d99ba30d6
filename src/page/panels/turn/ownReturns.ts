import type { Rig } from "../../../rig/model/rig.js";
import { routingsOf } from "../../../rig/routings/routingsOf.js";
import { returnsOf } from "../../../rig/wiring/returns.js";
import type { Wiring } from "../../../rig/wiring/wiring.js";
import { db } from "../../widgets/typeset.js";

interface OwnReturn {
  /** Label of the routing. */
  readonly routing: string;
  readonly unit: string;
  readonly gainDb: number;
}

/** What the first unit's own mix asks of its return, dB; 0 without one. */
export const ownReturnDb = (rig: Rig): number => ownReturns(rig)[0]?.gainDb ?? 0;

/** "Boiler tank −5.4 dB in “Parallel …”, …". */
export const ownReturnWords = (rig: Rig): string =>
  ownReturns(rig)
    .map(({ routing, unit, gainDb }) => `${unit} ${db(gainDb)} in \u201c${routing}\u201d`)
    .join(", ");

/** What the units' own mixes ask of their returns, routing by routing. */
function ownReturns(rig: Rig): readonly OwnReturn[] {
  const drawn = routingsOf({ ...rig, mixer: { ...rig.mixer, returnDb: null }, wirings: {} });
  return drawn.flatMap(({ label, wiring }) => (wiring ? ownReturnsIn(label, wiring) : []));
}

function ownReturnsIn(routing: string, wiring: Wiring): readonly OwnReturn[] {
  const { boxes, cables } = wiring;
  return boxes.flatMap((box) => {
    if (box.kind !== "mixer") return [];
    const unitInto = (jack: string) => {
      const cable = cables.find(({ to }) => to.box === box.id && to.jack === jack);
      return boxes.find(({ id }) => id === cable?.from.box)?.label ?? "";
    };
    const returns = returnsOf(box, wiring);
    return box.inputs
      .filter(({ jack }) => returns.includes(jack))
      .map(({ jack, gainDb }) => ({ routing, unit: unitInto(jack), gainDb }));
  });
}
