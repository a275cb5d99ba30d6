import { UserError } from "../../text/userError.js";
import { found, quoted } from "../../text/words.js";
import { chainOf } from "../model/chain.js";
import type { Pedal, Rig } from "../model/rig.js";
import { pedalModels } from "../pedals/models.js";
import { handFaults } from "../routings/handDrawn.js";
import { handNameFaults } from "../routings/handNames.js";
import { whyImpossible } from "../routings/sense.js";
import { readAsks } from "./asksSchema.js";
import { type PathFault, pathFaults, placedFaults, type RigFault } from "./faults.js";
import { thingField } from "./fields.js";
import {
  alternativeSchema,
  pedalSchema,
  unknownAlternativeSchema,
  unknownPedalSchema,
} from "./pedalSchema.js";
import { differenceFaults, nameFaults, type PedalWords, wiringFaults } from "./references.js";
import { mostPedals, rigFields } from "./rigSchema.js";
import { readSweep } from "./sweepSchema.js";
import { unitFaults } from "./unitFaults.js";
import { readYaml, type YamlText } from "./yaml.js";
import { z } from "./zod.js";

/**
 * Reads the text of a rig file: YAML, checked against the schema, defaults filled in.
 *
 * @param text  the file
 * @param file  its name, for messages
 * @throws UserError with every fault of the rig at once, each with line and column, the value found, what is allowed
 * @example
 * ```ts
 * import { parseRig } from "splitsum";
 * const rig = parseRig("name: A\npedals: [{ name: Swing, model: chorus, jacks: mono-to-stereo }]\n", "rig.yaml");
 * console.log(rig.pedals[0].settings);
 * ```
 */
export function parseRig(text: string, file: string): Rig {
  const { rig, faults } = checkRig(text, file);
  if (!rig) throw new UserError(faults);
  return rig;
}

/** What a text is as a rig file. */
export interface CheckedRig {
  /** The plain data in it, nothing yet of an empty one; null where it is no YAML, or no map. */
  readonly data: unknown;
  /** Null where there are faults. */
  readonly rig: Rig | null;
  /** The rig with what is drawn by hand as it stands, faults of drawings and all; null where anything in it cannot be read. */
  readonly draft: Rig | null;
  readonly faults: readonly RigFault[];
}

/** The same without throwing: whoever edits a rig sees what stands there and what is wrong with it. */
export function checkRig(text: string, file: string): CheckedRig {
  let data: unknown = null;
  try {
    const yaml = readYaml(text, file);
    data = dataIn(yaml);
    const { draft, faults } = rigIn(yaml, file);
    return {
      data,
      rig: faults.length === 0 ? draft : null,
      draft,
      faults: placedFaults(faults, yaml, file),
    };
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    return { data, rig: null, draft: null, faults: error.faults.map((fault) => ({ ...fault, path: null })) };
  }
}

const dataIn = ({ value }: YamlText): unknown => (isMap(value) ? value : value === null ? {} : null);

/** The rig in a document as far as it can be read, and all that is wrong with it. */
function rigIn(yaml: YamlText, file: string): Pick<CheckedRig, "draft"> & { faults: readonly PathFault[] } {
  const root = rootOf(yaml, file);
  const pedals = pedalsOf(root);
  const rest = schemas.rig().safeParse(root);
  const unreadable = [...(rest.success ? [] : pathFaults(rest.error)), ...pedals.faults];
  const faults = [...unreadable, ...referenceFaults(root, yaml)];
  if (!rest.success || unreadable.length > 0) return { draft: null, faults };
  const { sweep: sweepWords, asks, take, ...data } = rest.data;
  const units = chainOf({ ...data, pedals: pedals.read }).units.map(({ name }) => name);
  const rig: Rig = {
    ...data,
    take: take.file,
    takeInto: take.into,
    pedals: pedals.read,
    asks: readAsks(asks, units),
  };
  if (faults.length > 0) return { draft: rig, faults };
  const placeFaults = impossiblePlaces(rig);
  if (placeFaults.length > 0) return { draft: rig, faults: placeFaults };
  const wiringFaults = [...handNameFaults(rig), ...handFaults(rig)];
  if (wiringFaults.length > 0) return { draft: rig, faults: wiringFaults };
  if (sweepWords === undefined) return { draft: rig, faults: [] };
  const sweep = readSweep(sweepWords, rig);
  return "vary" in sweep ? { draft: { ...rig, sweep }, faults: [] } : { draft: rig, faults: sweep };
}

/** Each is made when it is first needed, and kept: making one takes longer than reading with it. */
const fieldsOfRig = once(() => rigFields(z.unknown()));
const schemas = {
  rig: once(() => thingField("a rig", fieldsOfRig())),
  unknownPedal: once(() => unknownPedalSchema(pedalModels)),
  unknownAlternative: once(() => unknownAlternativeSchema(pedalModels)),
  pedal: oncePerModel((model) => pedalSchema(model, pedalModels, z.unknown())),
  alternative: oncePerModel((model) => alternativeSchema(model, pedalModels)),
};

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/** Null for a word that is no model. */
function oncePerModel<T>(make: (model: string) => T): (word: string | null) => T | null {
  const made = new Map(Object.keys(pedalModels).map((model) => [model, once(() => make(model))]));
  return (word) => made.get(word ?? "")?.() ?? null;
}

/** Every pedal by the schema of its own model, so that a wrong model hides no other fault. */
function pedalsOf(root: Readonly<Record<string, unknown>>): { read: Pedal[]; faults: PathFault[] } {
  const read: Pedal[] = [];
  const faults: PathFault[] = [];
  const list: readonly unknown[] = Array.isArray(root.pedals) ? root.pedals : [];
  if (list.length > mostPedals) return { read, faults };
  list.forEach((entry, n) => {
    const alternatives = alternativesOf(entry, n);
    faults.push(...alternatives.faults);
    const result = (schemas.pedal(wordsOf(entry).model) ?? schemas.unknownPedal()).safeParse(entry);
    if (!result.success) faults.push(...pathFaults(result.error, ["pedals", n]));
    else if ("size" in result.data) read.push({ ...result.data, alternatives: alternatives.read });
  });
  return { read, faults };
}

/** The alternatives of pedal `n`, each by the schema of its own model. */
function alternativesOf(entry: unknown, n: number): { read: Pedal[]; faults: PathFault[] } {
  const read: Pedal[] = [];
  const faults: PathFault[] = [];
  listOf(entry, "alternatives").forEach((alternative, k) => {
    const result = (
      schemas.alternative(wordsOf(alternative).model) ?? schemas.unknownAlternative()
    ).safeParse(alternative);
    if (!result.success) faults.push(...pathFaults(result.error, ["pedals", n, "alternatives", k]));
    else if ("size" in result.data) read.push({ ...result.data, alternatives: [] });
  });
  return { read, faults };
}

const impossiblePlaces = (rig: Rig): PathFault[] =>
  Object.entries(rig.places).flatMap(([name, place]) => {
    const reason = whyImpossible(rig, place);
    return reason === null
      ? []
      : [{ path: ["places", name], message: `${quoted(name)} cannot go ${place}. ${reason}` }];
  });

const listOf = (entry: unknown, key: string): readonly unknown[] => {
  const list = isMap(entry) ? entry[key] : undefined;
  return Array.isArray(list) ? list : [];
};

function referenceFaults(root: Readonly<Record<string, unknown>>, yaml: YamlText): PathFault[] {
  const pedals =
    Array.isArray(root.pedals) && root.pedals.length <= mostPedals ? root.pedals.map(wordsOf) : [];
  const fields = fieldsOfRig();
  const wirings = fields.wirings.safeParse(root.wirings);
  const stereoUnit = fields.stereoUnit.safeParse(root.stereoUnit);
  const secondUnit = fields.secondUnit.safeParse(root.secondUnit);
  return [
    ...nameFaults(pedals, yaml.placeOf),
    ...unitFaults(root, pedals),
    ...differenceFaults("stereoUnit", stereoUnit.data ?? {}, pedals, pedalModels),
    ...differenceFaults("secondUnit", secondUnit.data ?? {}, pedals, pedalModels),
    ...wiringFaults(wirings.data ?? {}, pedals, pedalModels),
  ];
}

function wordsOf(entry: unknown): PedalWords {
  const { name, model, jacks } = isMap(entry) ? entry : {};
  return {
    name: typeof name === "string" ? name : null,
    model: typeof model === "string" ? model : null,
    jacks,
    alternatives: listOf(entry, "alternatives").map(wordsOf),
  };
}

function rootOf({ value }: YamlText, file: string): Readonly<Record<string, unknown>> {
  if (isMap(value)) return value;
  const is = value === null || value === undefined ? "is empty" : `holds ${found(value)}`;
  const message = `${is}; a rig file is a map with a name and pedals. See "splitsum init" for one to start from.`;
  throw new UserError({ file, message });
}

const isMap = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
