import { jackChoices } from "../../../rig/model/rig.js";
import { valueAt } from "./rigFields.js";

/** What each pedal is to the split, in words, also while the rig has faults. */
export function roleWords(data: unknown): readonly string[] {
  const pedals = valueAt(data, ["pedals"]);
  const jacks = (Array.isArray(pedals) ? pedals : []).map((pedal) => valueAt(pedal, ["jacks"]));
  const split = jacks.findIndex((word) => word === "mono-to-stereo" || word === "stereo");
  return jacks.map((word, n) => {
    if (!jackChoices.some((choice) => choice === word)) return "";
    if (split < 0) return "mono, like the whole rig";
    if (n < split) return "ahead of the split";
    if (n === split) return "here the sound splits into left and right";
    return word === "mono"
      ? "a mono unit after the split: this is what the wirings are about"
      : "after the split, in stereo";
  });
}
