import type {
  Asks,
  HandBox,
  HandWiring,
  JackFacts,
  OnHand,
  Pedal,
  Rig,
  SizeMm,
  SoldBox,
  SweepWords,
} from "../model/rig.js";
import { cableText } from "./cableText.js";
import { writeYaml } from "./yaml.js";

/**
 * A rig as the text of a rig file, with everything that is known of it; `parseRig` of it gives an equal rig.
 *
 * @example
 * ```ts
 * import { readRig, toYaml } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * console.log(toYaml({ ...rig, name: "Another" }));
 * ```
 */
export function toYaml(rig: Rig): string {
  return writeYaml(
    filled({
      name: rig.name,
      take: takeForm(rig),
      playsInto: rig.playsInto,
      pedals: rig.pedals.map(pedalForm),
      onHand: rig.onHand.map(onHandForm),
      boxes: boxesForm(rig.boxes),
      currency: rig.currency,
      mixer: filled({ ...rig.mixer }),
      reference: rig.reference,
      instrument: filled({ ...rig.instrument }),
      destination: filled({ ...rig.destination }),
      cables: rig.cables,
      stereoUnit: differencesForm(rig.stereoUnit),
      secondUnit: differencesForm(rig.secondUnit),
      wirings: Object.fromEntries(
        Object.entries(rig.wirings).map(([id, wiring]) => [id, wiringForm(wiring)]),
      ),
      places: rig.places,
      asks: asksForm(rig.asks),
      sweep: rig.sweep ? sweepForm(rig.sweep) : null,
    }),
  );
}

function takeForm({ take, takeInto }: Pick<Rig, "take" | "takeInto">): unknown {
  const into = filled({ ...takeInto });
  return isEmpty(into) ? take : filled({ file: take, into });
}

function pedalForm(pedal: Pedal): Record<string, unknown> {
  return filled({
    name: pedal.name,
    model: pedal.model,
    jacks: pedal.jacks,
    settings: pedal.settings,
    supply: pedal.supply,
    sizeMm: sizeForm(pedal.size),
    price: pedal.price,
    latencyMs: pedal.latencyMs,
    levelDb: pedal.levelDb,
    invertsPolarity: pedal.invertsPolarity,
    canGoFullyWet: pedal.canGoFullyWet,
    dryPath: pedal.dryPath,
    dryLeakDb: pedal.dryLeakDb,
    whenOff: pedal.whenOff,
    hasFootswitch: pedal.hasFootswitch,
    ...jackForm(pedal),
    alternatives: pedal.alternatives.map(pedalForm),
  });
}

const jackForm = ({ inputOhms, outputOhms, maxInputDbu, maxOutputDbu }: JackFacts): JackFacts => ({
  inputOhms,
  outputOhms,
  maxInputDbu,
  maxOutputDbu,
});

const sizeForm = (size: SizeMm | null) => size && { width: size.widthMm, depth: size.depthMm };

function onHandForm(item: OnHand): Record<string, unknown> {
  const { box, count, outputs, inputs, pairs, buffered, mutes } = item;
  switch (box) {
    case "splitter":
      return { box, count, outputs, buffered, mutes };
    case "summing-box":
      return { box, count, inputs };
    case "mixer":
      return { box, count, pairs, mutes };
  }
}

function boxesForm({ splitter, mixer, "summing-box": summing }: Rig["boxes"]): Record<string, unknown> {
  return filled({
    splitter: sizesForm(splitter, "outputs"),
    "summing-box": sizesForm(summing, "inputs"),
    mixer: sizesForm(mixer, "pairs"),
  });
}

/** A box of whatever size as one map, sizes as a list. */
function sizesForm(sizes: readonly SoldBox[], key: string): unknown {
  const forms = sizes.map(({ jacks, mutes, price, supply, size, ...facts }) =>
    filled({
      [key]: jacks,
      price,
      supply,
      sizeMm: sizeForm(size),
      mutes: mutes ? true : null,
      ...jackForm(facts),
    }),
  );
  return sizes.length === 1 && sizes[0].jacks === null ? forms[0] : forms;
}

const asksForm = ({ stereo, ...rest }: Asks): Record<string, unknown> => filled({ stereo, ...rest });

function differencesForm({ "*": all, ...byName }: Rig["stereoUnit"]): Record<string, unknown> {
  return all === undefined ? byName : { settings: all, ...byName };
}

function wiringForm({ label, boxes, cables }: HandWiring): Record<string, unknown> {
  return {
    label,
    boxes: Object.fromEntries(Object.entries(boxes).map(([id, box]): [string, HandBox] => [id, box])),
    cables: cables.map(cableText),
  };
}

function sweepForm({ vary, ...rest }: SweepWords): Record<string, unknown> {
  const entries = vary.map((group) =>
    Object.fromEntries(group.map(({ path, values }): [string, unknown] => [path, values])),
  );
  return filled({ vary: entries, ...rest });
}

/** Without what is not known (`null`) and what holds nothing. */
function filled(form: Readonly<Record<string, unknown>>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(form).filter(([, value]) => !isEmpty(value)));
}

const isEmpty = (value: unknown): boolean =>
  value === null || (typeof value === "object" && Object.keys(value).length === 0);
