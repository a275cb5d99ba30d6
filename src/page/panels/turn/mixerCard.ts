import { mixerBounds } from "../../../rig/model/bounds.js";
import type { Rig } from "../../../rig/model/rig.js";
import { routingsOf } from "../../../rig/routings/routingsOf.js";
import { returnsOf } from "../../../rig/wiring/returns.js";
import { el, setText } from "../../widgets/dom.js";
import { numberControl } from "../../widgets/numberControl.js";
import { db } from "../../widgets/typeset.js";
import type { View } from "../view.js";
import type { Card } from "./pedalCard.js";
import { switchControl } from "./settingControl.js";

const owner = "Mixer";
const { gainDb: level, pan } = mixerBounds;

/** The mixer of the parallel routings. Its moves are heard at once. */
export function mixerCard({ bench }: View): Card {
  const dryDb = numberControl(
    level,
    { name: "dry pair", unit: "dB", owner, says: "gain of the stereo pedals' pair" },
    (value) => bench.setMixer({ dryDb: value }),
  );
  const own = switchControl(
    { name: "return as the unit's own mix", unit: "", owner, says: "wet to dry as the unit gives in line" },
    (on) => bench.setMixer({ returnDb: on ? null : ownReturnDb(bench.rig) }),
  );
  const returnDb = numberControl(
    level,
    { name: "return", unit: "dB", owner, says: "gain of each unit's return" },
    (value) => bench.setMixer({ returnDb: value }),
  );
  const returnPan = numberControl(
    pan,
    { name: "return pan", unit: "", owner, says: "\u22121 left, 0 both sides, 1 right; equal power" },
    (value) => bench.setMixer({ returnPan: value }),
  );
  const now = el("p", { class: "hint" });
  const update = () => {
    const { mixer } = bench.rig;
    dryDb.set(mixer.dryDb);
    own.set(mixer.returnDb === null);
    returnDb.set(mixer.returnDb ?? ownReturnDb(bench.rig));
    returnPan.set(mixer.returnPan);
    setText(now, `The units\u2019 own mixes give ${returnWords(bench.rig)}.`);
  };
  update();
  return {
    node: el(
      "fieldset",
      { class: "card" },
      el("legend", {}, owner, el("small", {}, " of the parallel routings")),
      returnDb.node,
      own.node,
      now,
      returnPan.node,
      dryDb.node,
    ),
    update,
  };
}

/** What the units' own mixes ask of their returns, routing by routing. */
function ownReturns(rig: Rig): readonly { routing: string; unit: string; gainDb: number }[] {
  const drawn = routingsOf({ ...rig, mixer: { ...rig.mixer, returnDb: null }, wirings: {} });
  return drawn.flatMap(({ label, wiring }) => {
    if (!wiring) return [];
    const mixers = wiring.boxes.filter((box) => box.kind === "mixer");
    return mixers.flatMap((mixer) =>
      returnsOf(mixer, wiring).map((jack) => ({
        routing: label,
        unit: wiring.cables.find(({ to }) => to.box === mixer.id && to.jack === jack)?.from.box ?? "",
        gainDb: mixer.inputs.find((input) => input.jack === jack)?.gainDb ?? 0,
      })),
    );
  });
}

const ownReturnDb = (rig: Rig): number => ownReturns(rig)[0]?.gainDb ?? 0;

const returnWords = (rig: Rig): string =>
  ownReturns(rig)
    .map(({ routing, unit, gainDb }) => `${unit} ${db(gainDb)} in \u201c${routing}\u201d`)
    .join(", ");
