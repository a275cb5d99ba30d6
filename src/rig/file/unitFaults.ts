import { noUnit } from "../routings/noUnit.js";
import type { PathFault } from "./faults.js";
import type { PedalWords } from "./references.js";
import type { Path } from "./yaml.js";

type Root = Readonly<Record<string, unknown>>;

/**
 * Names that stand for mono units after the split: in `asks`, in `places`, and pedals with alternatives. Looked at
 * before the rest of the rig is known to be right, so that every fault is told at once.
 */
export function unitFaults(root: Root, pedals: readonly PedalWords[]): PathFault[] {
  const units = unitsAmong(pedals, mapAt(root, "instrument").outputs === 2);
  const known = units.flatMap(({ name }) => (name === null ? [] : [name]));
  const asks = mapAt(root, "asks");
  const named = (key: string): { name: unknown; path: Path; atKey: boolean }[] => {
    const list: readonly unknown[] = Array.isArray(asks[key]) ? asks[key] : [];
    return list.map((name, n) => ({ name, path: ["asks", key, n], atKey: false }));
  };
  const placed = Object.keys(mapAt(root, "places")).map((name) => ({
    name,
    path: ["places", name],
    atKey: true,
  }));
  return [
    ...[...named("order"), ...named("sameUnit"), ...placed].flatMap(({ name, path, atKey }): PathFault[] =>
      typeof name !== "string" || known.includes(name)
        ? []
        : [{ path, message: noUnit(name, pedals, known), atKey }],
    ),
    ...pedals.flatMap((pedal, n): PathFault[] =>
      pedal.alternatives.length === 0 || pedal.name === null || units.includes(pedal)
        ? []
        : [{ path: ["pedals", n, "alternatives"], message: noUnit(pedal.name, pedals, known), atKey: true }],
    ),
  ];
}

/** Pedals with one input and one output after the first with two outputs, or all such ones of an instrument with two. */
function unitsAmong(pedals: readonly PedalWords[], isStereo: boolean): readonly PedalWords[] {
  const first = isStereo ? 0 : pedals.findIndex(({ jacks }) => jacks !== "mono");
  return first < 0 ? [] : pedals.slice(first).filter(({ jacks }) => jacks === "mono");
}

function mapAt(root: Root, key: string): Root {
  const value = root[key];
  return typeof value === "object" && value !== null && !Array.isArray(value) ? { ...value } : {};
}
