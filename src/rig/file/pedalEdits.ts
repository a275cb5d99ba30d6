import type { RigEdit } from "./editRig.js";
import type { Path } from "./yaml.js";

/** Plain data of a rig file, as far as it goes: it may have any fault. */
type Data = unknown;

/** Where a rig file speaks of pedals by their names. */
const namingBlocks = ["asks", "places", "stereoUnit", "secondUnit", "wirings", "sweep"];

/**
 * The name of a pedal, and all that the rest of the rig says of it, under another name. A name that another pedal has is
 * a fault: then the rest of the rig goes on speaking of it as before.
 * @param lastWhole  its name when the rig was last whole, by which the rest of the rig calls it while it has another's
 */
export function renamedPedal(
  data: Data,
  index: number,
  name: string,
  lastWhole: string | null = null,
): readonly RigEdit[] {
  const own: RigEdit = { set: ["pedals", index, "name"], to: name };
  const isTaken = (wanted: string) =>
    pedalNames(data).some((other, n) => n !== index && other.toLowerCase() === wanted.toLowerCase());
  const now = nameAt(data, index);
  const before = now !== null && isTaken(now) ? lastWhole : now;
  if (before === null || before === name || isTaken(name) || isTaken(before)) return [own];
  const found = namingBlocks
    .flatMap((block) => mentions(childOf(data, block), [block], named(data, before)))
    .filter(isOfThePedal);
  return [own, ...found.map((mention) => asRenamed(mention, before, name))];
}

/** A pedal goes, with what is asked of it by name. A wiring drawn by hand with it keeps its box, and says what is missing. */
export function withoutPedal(data: Data, index: number): readonly RigEdit[] {
  const name = nameAt(data, index);
  const own: RigEdit = { set: ["pedals", index], to: undefined };
  if (name === null) return [own];
  const found = namingBlocks
    .filter((block) => block !== "wirings")
    .flatMap((block) => mentions(childOf(data, block), [block], named(data, name)));
  // From the end, so that a list's entries keep their places until they go.
  return [...found.reverse().map(({ path }): RigEdit => ({ set: path, to: undefined })), own];
}

/** The same pedal once more, behind itself, under a name that is free; its alternatives stay with the first. */
export function pedalTwice(data: Data, index: number): readonly RigEdit[] {
  const pedal = childOf(childOf(data, "pedals"), index);
  if (!isMap(pedal)) return [];
  const name = freeName(data, nameAt(data, index) ?? "Pedal");
  const { alternatives: _, ...rest } = pedal;
  return [{ into: ["pedals"], at: index + 1, add: { ...rest, name } }];
}

/** A name that no pedal of the rig and no alternative has yet: "Chorus", "Chorus 2", ... */
export function freeName(data: Data, wanted: string): string {
  const pedals = childOf(data, "pedals");
  const others = (Array.isArray(pedals) ? pedals : []).flatMap((pedal: unknown) =>
    namesIn(childOf(pedal, "alternatives")),
  );
  const taken = new Set([...pedalNames(data), ...others].map((name) => name.trim().toLowerCase()));
  const base = wanted.replace(/ \d+$/, "");
  for (let n = 1; ; n++) {
    const name = n === 1 ? wanted : `${base} ${n}`;
    if (!taken.has(name.toLowerCase())) return name;
  }
}

interface Mention {
  readonly path: Path;
  /** The name stands in the key at the end of the path, alone or before a point. */
  readonly key: string | null;
}

/** Every key and every word under a block that is the name of a pedal; in a sweep's knobs also "Name.setting". */
function mentions(block: Data, path: Path, who: Named): readonly Mention[] {
  if (block === who.name) return [{ path, key: null }];
  if (Array.isArray(block)) return block.flatMap((entry, n) => mentions(entry, [...path, n], who));
  if (!isMap(block)) return [];
  return Object.entries(block).flatMap(([key, value]) => {
    const inside = mentions(value, [...path, key], who);
    const isIt = key === who.name || (path[0] === "sweep" && isKnobOf(key, who));
    return isIt ? [...inside, { path: [...path, key], key }] : inside;
  });
}

/** In a drawing a box says whose it is; ids of boxes, which cables go by, and labels are not names. */
const isOfThePedal = ({ path, key }: Mention): boolean =>
  path[0] !== "wirings" || (key === null && path[2] === "boxes" && path.at(-1) === "pedal");

interface Named {
  readonly name: string;
  readonly others: readonly string[];
}
const named = (data: Data, name: string): Named => ({
  name,
  others: pedalNames(data).filter((other) => other !== name),
});

/** "Tank.mix" is a knob of "Tank", unless another pedal is called "Tank.mix" or longer. */
function isKnobOf(key: string, { name, others }: Named): boolean {
  const knob = key.replace(/^(secondUnit|stereoUnit|places)\./, "");
  const begins = (pedal: string) => knob === pedal || knob.startsWith(`${pedal}.`);
  return begins(name) && !others.some((other) => other.length > name.length && begins(other));
}

const asRenamed = ({ path, key }: Mention, before: string, name: string): RigEdit =>
  key === null ? { set: path, to: name } : { rename: path, key: key.replace(before, () => name) };

export const pedalNames = (data: Data): readonly string[] => namesIn(childOf(data, "pedals"));

const namesIn = (list: Data): readonly string[] =>
  (Array.isArray(list) ? list : []).flatMap((entry: unknown) => {
    const name = childOf(entry, "name");
    return typeof name === "string" ? [name] : [];
  });

function nameAt(data: Data, index: number): string | null {
  const name = childOf(childOf(childOf(data, "pedals"), index), "name");
  return typeof name === "string" ? name : null;
}

const childOf = (data: Data, key: string | number): unknown =>
  isMap(data) || Array.isArray(data) ? (data as Record<string | number, unknown>)[key] : undefined;

const isMap = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
