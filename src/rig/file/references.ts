import { didYouMean } from "../../text/nearest.js";
import { andList, quoted } from "../../text/words.js";
import type { HandBox, HandWiring } from "../model/rig.js";
import { asGivenId, asPlacedId, routingIds } from "../routings/routing.js";
import { dryId } from "../wiring/dryWiring.js";
import { type PathFault, pathFaults } from "./faults.js";
import type { Models } from "./pedalSchema.js";
import { settingsSchema } from "./settingsSchema.js";
import type { Path, TextPlace } from "./yaml.js";
import type { z } from "./zod.js";

/** What the rest of a rig may refer to, of a pedal that may have faults itself. */
export interface PedalWords {
  readonly name: string | null;
  readonly model: string | null;
  readonly jacks: unknown;
  readonly alternatives: readonly PedalWords[];
}

/** No two pedals of one name (capitals do not count), and none named by a word that means something else. */
export function nameFaults(
  pedals: readonly PedalWords[],
  placeOf: (path: Path) => TextPlace | undefined,
): PathFault[] {
  const firstAt = new Map<string, Path>();
  const named = pedals.flatMap(({ name, alternatives }, n): { name: string | null; path: Path }[] => [
    { name, path: ["pedals", n, "name"] },
    ...alternatives.map((each, k) => ({ name: each.name, path: ["pedals", n, "alternatives", k, "name"] })),
  ]);
  return named.flatMap(({ name, path }): PathFault[] => {
    if (name === null) return [];
    if (reserved.has(name)) {
      return [
        { path, message: `name is ${quoted(name)}; that word stands for all units. Choose another name.` },
      ];
    }
    if (isOfTheLanguage(name)) {
      return [{ path, message: `name is ${quoted(name)}; ${ofTheLanguage} Choose another name.` }];
    }
    const key = name.trim().toLowerCase();
    const first = firstAt.get(key);
    if (first === undefined) {
      firstAt.set(key, path);
      return [];
    }
    const line = placeOf(first)?.line;
    const which = first.length === 3 ? `pedal ${Number(first[1]) + 1}` : "an alternative";
    const message = `name is ${quoted(name)}; ${which} in line ${line} has that name (capitals do not count). Give each pedal a name of its own.`;
    return [{ path, message }];
  });
}

/** `stereoUnit` and `secondUnit`: names that the rig has, settings that their models have, within their bounds. */
export function differenceFaults(
  key: string,
  differences: Readonly<Record<string, unknown>>,
  pedals: readonly PedalWords[],
  models: Models,
): PathFault[] {
  return Object.entries(differences).flatMap(([name, settings]): PathFault[] => {
    if (name === "*") return allUnitsFaults([key, "settings"], settings, pedals, models);
    const path = [key, name];
    const pedal = pedals.find((candidate) => candidate.name === name);
    if (pedal === undefined) {
      const known = [...namesOf(pedals), "settings"];
      const message = `${quoted(name)} is no pedal of this rig; here stands ${andList(known, "or")}.${didYouMean(name, known)}`;
      return [{ path, message, atKey: true }];
    }
    return modelFaults(path, settings, pedal.model, models);
  });
}

/** Hand-drawn wirings: pedals that the rig has, their settings, and boxes that the wiring has. */
export function wiringFaults(
  wirings: Readonly<Record<string, HandWiring>>,
  pedals: readonly PedalWords[],
  models: Models,
): PathFault[] {
  return Object.entries(wirings).flatMap(([id, { boxes, cables }]) => [
    ...takenIdFaults(id),
    ...Object.entries(boxes).flatMap(([box, hand]) =>
      handBoxFaults(["wirings", id, "boxes", box], box, hand, pedals, models),
    ),
    ...cables.flatMap(({ from, to }, n) => cableFaults(["wirings", id, "cables", n], [from, to], boxes)),
  ]);
}

/** Ids that have a meaning already: files and rows of a comparison would carry one name. */
export const takenIds: readonly string[] = [...routingIds, asGivenId, asPlacedId, dryId];

/** What every object has: a thing of that name in a map could not be told from it. */
const isOfTheLanguage = (word: string): boolean => word in Object.prototype;
const ofTheLanguage = "that word has a meaning in the language of the program.";

function takenIdFaults(id: string): PathFault[] {
  if (isOfTheLanguage(id)) {
    const message = `${quoted(id)} is no id; ${ofTheLanguage} Give the wiring another id.`;
    return [{ path: ["wirings", id], message, atKey: true }];
  }
  if (!takenIds.includes(id)) return [];
  const message = `${quoted(id)} has a meaning already, as have ${takenIds.join(", ")}. Give the wiring another id.`;
  return [{ path: ["wirings", id], message, atKey: true }];
}

/** Words that stand for all units in `stereoUnit` and `secondUnit`. */
const reserved = new Set(["settings", "*"]);
const implicitBoxes = ["take", "destination"];

function handBoxFaults(
  path: Path,
  id: string,
  box: HandBox,
  pedals: readonly PedalWords[],
  models: Models,
): PathFault[] {
  if (implicitBoxes.includes(id)) {
    return [{ path, message: `every wiring has its ${quoted(id)} already. Take this box out.`, atKey: true }];
  }
  if (isOfTheLanguage(id)) {
    return [
      { path, message: `${quoted(id)} is no id; ${ofTheLanguage} Give the box another id.`, atKey: true },
    ];
  }
  if (box.box !== "pedal") return [];
  const known = pedals.flatMap((own) => [own, ...own.alternatives]);
  const pedal = known.find(({ name }) => name === box.pedal);
  if (pedal !== undefined) {
    return [
      ...(box.stereo && pedal.jacks !== "mono" ? [notMono([...path, "stereo"], box.pedal)] : []),
      ...modelFaults([...path, "settings"], box.settings, pedal.model, models),
    ];
  }
  const names = namesOf(known);
  const message = `pedal is ${quoted(box.pedal)}; the pedals of this rig are ${names.join(", ")}.${didYouMean(box.pedal, names)}`;
  return [{ path: [...path, "pedal"], message }];
}

const notMono = (path: Path, name: string): PathFault => ({
  path,
  message: `stereo is true; only a mono pedal has one of its kind in stereo, and ${quoted(name)} has more jacks. Take it out.`,
});

function cableFaults(
  path: Path,
  ends: readonly string[],
  boxes: Readonly<Record<string, HandBox>>,
): PathFault[] {
  const known = [...implicitBoxes, ...Object.keys(boxes)];
  return ends
    .map((end) => end.slice(0, end.indexOf(":")))
    .filter((box) => !known.includes(box))
    .map((box) => ({
      path,
      message: `${quoted(box)} is no box of this wiring; its boxes are ${known.join(", ")}.${didYouMean(box, known)}`,
    }));
}

/** Settings for all units: each is one that a mono pedal of the rig has, within the bounds of all that have it. */
function allUnitsFaults(
  path: Path,
  settings: unknown,
  pedals: readonly PedalWords[],
  models: Models,
): PathFault[] {
  const words = new Set(pedals.filter(({ jacks }) => jacks === "mono").map(({ model }) => model));
  const units = [...words].filter((model) => model !== null && Object.hasOwn(models, model));
  if (units.length === 0 || typeof settings !== "object" || settings === null) return [];
  const known = new Set(units.flatMap((model) => Object.keys(models[model!]!.settings)));
  return Object.entries(settings).flatMap(([key, value]): PathFault[] => {
    const having = units.filter((model) => Object.hasOwn(models[model!]!.settings, key));
    if (having.length > 0)
      return having.flatMap((model) => modelFaults(path, { [key]: value }, model, models));
    const message = `${quoted(key)} is no setting of this rig's mono pedals; they have ${[...known].join(", ")}.${didYouMean(key, [...known])}`;
    return [{ path: [...path, key], message, atKey: true }];
  });
}

function modelFaults(path: Path, settings: unknown, model: string | null, models: Models): PathFault[] {
  if (model === null || !Object.hasOwn(models, model)) return [];
  const result: z.ZodSafeParseResult<unknown> = settingsSchema(
    model,
    models[model]!.settings,
    true,
  ).safeParse(settings);
  return result.success ? [] : [...pathFaults(result.error, path)];
}

const namesOf = (pedals: readonly PedalWords[]): string[] =>
  pedals.flatMap(({ name }) => (name === null ? [] : [name]));
