import { listAt, valueAt } from "../../../rig/file/dataAt.js";
import { jackChoices } from "../../../rig/model/rig.js";
import { andList } from "../../../text/words.js";

/** What a pedal is to the split; null while its jacks are not told. */
export type Role = "mono-rig" | "ahead" | "split" | "unit" | "stereo" | null;

/** What each pedal is to the split, also while the rig has faults. */
export function rolesOf(data: unknown): readonly Role[] {
  const jacks = listAt(data, ["pedals"]).map((pedal) => valueAt(pedal, ["jacks"]));
  const isStereo = hasStereoInstrument(data);
  const split = isStereo ? -1 : jacks.findIndex((word) => word === "mono-to-stereo" || word === "stereo");
  return jacks.map((word, n): Role => {
    if (!jackChoices.some((choice) => choice === word)) return null;
    if (split < 0 && !isStereo) return "mono-rig";
    if (n < split) return "ahead";
    if (n === split) return "split";
    return word === "mono" ? "unit" : "stereo";
  });
}

export const roleWords: Readonly<Record<Exclude<Role, null>, string>> = {
  "mono-rig": "mono, like the whole rig",
  ahead: "ahead of the split",
  split: "here the sound splits into left and right",
  unit: "a mono unit after the split: the wirings are about it",
  stereo: "after the split, in stereo",
};

/** Names of the mono units after the split, in the order of the signal. */
export function unitNames(data: unknown): readonly string[] {
  const roles = rolesOf(data);
  return listAt(data, ["pedals"]).flatMap((pedal, n) => {
    const name = valueAt(pedal, ["name"]);
    return roles[n] === "unit" && typeof name === "string" && name !== "" ? [name] : [];
  });
}

/** Where the rig splits, and what that leaves to be decided: one sentence. */
export function splitWords(data: unknown): string {
  const roles = rolesOf(data);
  if (roles.length === 0) return "";
  const at = roles.indexOf("split");
  if (at < 0 && !hasStereoInstrument(data))
    return "Nothing splits the sound: the whole rig is in mono, and there is one way to wire it.";
  const name = valueAt(data, ["pedals", at, "name"]);
  const splits = at < 0 ? "The instrument is in stereo" : `The sound splits at ${name || `pedal ${at + 1}`}`;
  const units = unitNames(data);
  return units.length === 0
    ? `${splits}, and no mono unit comes after that: there is nothing to decide.`
    : `${splits}. ${units.length === 1 ? "One mono unit comes" : `${units.length} mono units come`} after that: ${andList(units)}.`;
}

const hasStereoInstrument = (data: unknown): boolean => valueAt(data, ["instrument", "outputs"]) === 2;
