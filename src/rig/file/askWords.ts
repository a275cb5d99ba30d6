import { UserError } from "../../text/userError.js";
import { chainOf } from "../model/chain.js";
import type { Rig } from "../model/rig.js";
import { asksSchema, readAsks } from "./asksSchema.js";
import { type PathFault, pathFaults } from "./faults.js";
import { unitFaults } from "./unitFaults.js";

/** Asks whose value is a list. */
const lists: ReadonlySet<string> = new Set(["order", "sameUnit", "first"]);

/**
 * The rig with asks as words of a command: `spendAtMost=200`, `order=Tank`, or a bare `oneOfEach` for true. Each takes
 * the place of the rig's own ask of that name; of lists, several words add up, and commas part the names in one.
 * @throws UserError with every word that is wrong, in the sentences of the rig file
 */
export function withAsks(rig: Rig, words: readonly string[]): Rig {
  const { units } = chainOf(rig);
  const names = units.map(({ name }) => name);
  const raw: Record<string, unknown> = {};
  for (const word of words) {
    const at = word.indexOf("=");
    const key = (at < 0 ? word : word.slice(0, at)).trim();
    const value = at < 0 ? true : askValue(key, word.slice(at + 1).trim(), names);
    const before = raw[key];
    raw[key] = Array.isArray(before) && Array.isArray(value) ? [...before, ...value] : value;
  }
  const read = asksSchema().safeParse(raw);
  const faults: readonly PathFault[] = [
    ...(read.success ? [] : pathFaults(read.error, ["asks"])),
    ...unitFaults({ asks: raw, instrument: rig.instrument }, rig.pedals),
  ];
  if (!read.success || faults.length > 0)
    throw new UserError(faults.map(({ message }) => ({ message: `--ask: ${message}` })));
  const asks = Object.entries(readAsks(read.data, names)).filter(([key]) => Object.hasOwn(raw, key));
  return { ...rig, asks: { ...rig.asks, ...Object.fromEntries(asks) } };
}

function askValue(key: string, text: string, names: readonly string[]): unknown {
  if (text === "true" || text === "false") return text === "true";
  if (lists.has(key)) return names.includes(text) ? [text] : text.split(",").map((name) => name.trim());
  const number = text === "" ? Number.NaN : Number(text);
  return Number.isNaN(number) ? text : number;
}
