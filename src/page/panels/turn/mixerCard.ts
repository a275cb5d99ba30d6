import { mixerBounds } from "../../../rig/model/bounds.js";
import type { Bench } from "../../contract/bench.js";
import { el, setText } from "../../widgets/dom.js";
import { more } from "../../widgets/more.js";
import { NumberControl } from "../../widgets/numberControl.js";
import type { PagePart } from "../view.js";
import { ownReturnDb, ownReturnWords } from "./ownReturns.js";
import { switchControl } from "./settingControl.js";

const owner = "Mixer";

/** The mixer of the parallel routings. Its moves are heard at once. */
export function mixerCard(bench: Bench): PagePart {
  const dryDb = new NumberControl(
    mixerBounds.gainDb,
    { name: "dry pair", unit: "dB", owner, hint: "gain of the stereo pedals' pair" },
    (value) => bench.setMixer({ dryDb: value }),
  );
  const own = switchControl(
    {
      name: "return as the unit's own mix",
      unit: "",
      owner,
      hint: "wet to dry as the unit gives in line; at mix 1 as loud as dry",
    },
    (on) => bench.setMixer({ returnDb: on ? null : ownReturnDb(bench.rig) }),
  );
  const returnDb = new NumberControl(
    mixerBounds.gainDb,
    { name: "return", unit: "dB", owner, hint: "gain of each unit's return" },
    (value) => bench.setMixer({ returnDb: value }),
  );
  const returnPan = new NumberControl(
    mixerBounds.pan,
    { name: "return pan", unit: "", owner, hint: "\u22121 left, 0 both sides, 1 right; equal power" },
    (value) => bench.setMixer({ returnPan: value }),
  );
  const now = el("p", { class: "hint" });
  const update = () => {
    const { mixer } = bench.rig;
    dryDb.set(mixer.dryDb);
    own.set(mixer.returnDb === null);
    returnDb.set(mixer.returnDb ?? ownReturnDb(bench.rig));
    returnPan.set(mixer.returnPan);
    setText(now, `With that, the returns are ${ownReturnWords(bench.rig)}.`);
  };
  update();
  const legend = el("legend", {}, owner, el("small", {}, " of the parallel routings"));
  const nodes = [legend, returnDb.node, own.node, now, more(owner, returnPan.node, dryDb.node)];
  return { node: el("fieldset", { class: "card" }, ...nodes), update };
}
