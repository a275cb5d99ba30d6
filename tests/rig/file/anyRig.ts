import fc from "fast-check";
import { type PickupKind, pickupKindNames, pickupKinds } from "../../../src/rig/model/pickupKinds.js";
import {
  type Asks,
  deciderChoices,
  dryPathChoices,
  type Instrument,
  jackChoices,
  type OnHand,
  type Pedal,
  playsIntoChoices,
  type Rig,
  type SoldBox,
  whenOffChoices,
} from "../../../src/rig/model/rig.js";
import { pedalModels } from "../../../src/rig/pedals/models.js";
import type { Setting, SettingValue } from "../../../src/sound/dsp/kernel.js";

/** Any rig that validates, of 1 to `mostPedals` pedals: every setting anywhere within its bounds. No hand-drawn wirings. */
export function anyRig(mostPedals = 5): fc.Arbitrary<Rig> {
  const pedals = fc.array(anyPedal(), { minLength: 1, maxLength: mostPedals }).map(withNames);
  return pedals.chain((list) =>
    fc.record({
      name: fc.string({ unit: "grapheme-ascii", minLength: 1, maxLength: 40 }),
      take: fc.option(fc.constantFrom("take.wav", "../takes/a b.flac")),
      takeInto: fc.record({ ohms: fc.option(ohms()), picofarads: fc.option(within(0, 1e5)) }),
      playsInto: fc.constantFrom(...playsIntoChoices),
      pedals: fc.constant(list),
      onHand: fc.array(anyOnHand(), { maxLength: 3 }),
      boxes: fc.record({ splitter: anySizes(2), "summing-box": anySizes(2), mixer: anySizes(1) }),
      currency: fc.constantFrom("EUR", "SEK", "JPY"),
      mixer: fc.record({
        dryDb: within(-60, 12),
        returnDb: fc.option(within(-60, 12)),
        returnPan: fc.double({ min: -1, max: 1, noNaN: true }),
      }),
      reference: fc.option(fc.record({ dbfs: within(-60, 0), dbu: within(-60, 30) })),
      instrument: fc
        .record({
          pickup: fc.option(fc.constantFrom(...pickupKindNames)),
          outputOhms: fc.option(ohms()),
          outputs: fc.constantFrom<1 | 2>(1, 2),
          henries: fc.option(within(0, 100)),
          picofarads: fc.option(within(0, 1e5)),
          volume: fc.option(fc.record({ ohms: ohms(), trackShare: within(0.001, 1) })),
          tone: fc.option(
            fc.record({ ohms: ohms(), trackShare: within(0.001, 1), nanofarads: within(0.01, 1000) }),
          ),
        })
        .map((it) => (it.pickup ? { ...it, ...usualOf(it.pickup, it) } : it)),
      destination: fc.record({ inputOhms: fc.option(ohms()), maxInputDbu: fc.option(within(-60, 40)) }),
      cables: fc.record({
        instrumentMetres: metres(),
        patchMetres: metres(),
        outputMetres: metres(),
        picofaradsPerMetre: fc.double({ min: 1, max: 1000, noNaN: true }),
      }),
      stereoUnit: differences(list),
      secondUnit: differences(list),
      wirings: fc.constant({}),
      places: fc.constant({}),
      asks: anyAsks(),
    }),
  );
}

const withNames = (pedals: readonly Pedal[]): readonly Pedal[] =>
  pedals.map((pedal, n) => ({ ...pedal, name: `Pedal ${n + 1}` }));

/** Models that need no file. */
const words = Object.keys(pedalModels).filter((model) =>
  Object.values(pedalModels[model].settings).every((setting) => !("file" in setting)),
);

const anyPedal = (): fc.Arbitrary<Pedal> =>
  fc.constantFrom(...words).chain((model) =>
    fc.record({
      name: fc.constant(""),
      model: fc.constant(model),
      jacks: fc.constantFrom(...jackChoices),
      settings: anySettings(model),
      supply: fc.option(
        fc.record({ volts: fc.constantFrom(9, 12, 18), milliamps: fc.integer({ min: 0, max: 500 }) }),
      ),
      size: fc.option(
        fc.record({ widthMm: fc.integer({ min: 1, max: 2000 }), depthMm: fc.integer({ min: 1, max: 2000 }) }),
      ),
      price: fc.option(fc.integer({ min: 0, max: 1_000_000 })),
      latencyMs: fc.double({ min: 0, max: 100, noNaN: true }),
      levelDb: within(-60, 24),
      invertsPolarity: fc.boolean(),
      canGoFullyWet: fc.boolean(),
      dryPath: fc.constantFrom(...dryPathChoices),
      dryLeakDb: within(-80, 0),
      whenOff: fc.constantFrom(...whenOffChoices),
      hasFootswitch: fc.boolean(),
      ...jackFacts(),
      alternatives: fc.constant<readonly Pedal[]>([]),
    }),
  );

function anySettings(model: string): fc.Arbitrary<Record<string, SettingValue>> {
  const table = Object.entries(pedalModels[model].settings);
  return fc.record(Object.fromEntries(table.map(([key, setting]) => [key, anyValue(setting)])));
}

function anyValue(setting: Setting): fc.Arbitrary<SettingValue> {
  if ("file" in setting) return fc.constant("");
  if ("choices" in setting) return fc.constantFrom(...setting.choices);
  if (!("min" in setting)) return fc.boolean();
  const { min, max, whole } = setting;
  if (whole) return fc.integer({ min, max });
  // Doubles alone are mostly next to nothing: the ends, and what lies evenly between, are what people turn to.
  const between = fc.integer({ min: 0, max: 1000 }).map((k) => min + ((max - min) * k) / 1000);
  return fc.oneof(fc.constantFrom(min, max), between, fc.double({ min, max, noNaN: true }));
}

/** Differences of a few settings of the first pedal. */
function differences([first]: readonly Pedal[]): fc.Arbitrary<Rig["stereoUnit"]> {
  const few = anySettings(first.model).map((settings) =>
    Object.fromEntries(Object.entries(settings).slice(0, 2)),
  );
  return fc.oneof(
    fc.constant<Rig["stereoUnit"]>({}),
    few.map((settings): Rig["stereoUnit"] => ({ [first.name]: settings })),
  );
}

/** Without names: those must be the rig's own. */
const anyAsks = (): fc.Arbitrary<Asks> =>
  fc.record({
    stereo: fc.option(fc.double({ min: 0, max: 1, noNaN: true })),
    order: fc.constant([]),
    sameUnit: fc.constant([]),
    oneOfEach: fc.boolean(),
    bothSides: fc.boolean(),
    spendAtMost: fc.option(fc.integer({ min: 0, max: 1000 })),
    extraBoxesAtMost: fc.option(fc.integer({ min: 0, max: 9 })),
    outletsAtMost: fc.option(fc.integer({ min: 0, max: 9 })),
    milliampsAtMost: fc.option(fc.integer({ min: 0, max: 9000 })),
    boardCm2AtMost: fc.option(fc.double({ min: 0, max: 9000, noNaN: true })),
    monoLossDbAtMost: fc.option(fc.double({ min: 0, max: 60, noNaN: true })),
    first: fc.shuffledSubarray([...deciderChoices], { minLength: deciderChoices.length }),
  });

const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const metres = () => fc.double({ min: 0, max: 200, noNaN: true });
const ohms = () => fc.double({ min: 1, max: 1e8, noNaN: true });
const jackFacts = () => ({
  inputOhms: fc.option(ohms()),
  outputOhms: fc.option(ohms()),
  maxInputDbu: fc.option(within(-60, 40)),
  maxOutputDbu: fc.option(within(-60, 40)),
});
/** One of whatever size, or several sizes. */
const anySizes = (least: number): fc.Arbitrary<readonly SoldBox[]> =>
  fc.oneof(
    facts(fc.constant(null)).map((box) => [box]),
    fc.array(facts(fc.integer({ min: least, max: 8 })), { minLength: 1, maxLength: 3 }),
  );
const facts = (jacks: fc.Arbitrary<number | null>): fc.Arbitrary<SoldBox> =>
  fc.record({
    jacks,
    mutes: fc.boolean(),
    price: fc.option(fc.integer({ min: 0, max: 1000 })),
    supply: fc.constant(null),
    size: fc.option(fc.record({ widthMm: fc.constant(40), depthMm: fc.constant(95) })),
    ...jackFacts(),
  });

const anyOnHand = (): fc.Arbitrary<OnHand> => {
  const none = { outputs: 0, inputs: 0, pairs: 0, buffered: false, mutes: false };
  return fc.oneof(
    fc.boolean().map((buffered): OnHand => ({ ...none, box: "splitter", count: 1, outputs: 2, buffered })),
    fc
      .integer({ min: 2, max: 8 })
      .map((inputs): OnHand => ({ ...none, box: "summing-box", count: 2, inputs })),
    fc.integer({ min: 1, max: 8 }).map((pairs): OnHand => ({ ...none, box: "mixer", count: 1, pairs })),
  );
};

/** What parsing fills in where a rig names the kind of pickup. */
function usualOf(kind: PickupKind, { outputOhms, henries, picofarads }: Omit<Instrument, "outputs">) {
  const usual = pickupKinds[kind];
  return {
    outputOhms: outputOhms ?? usual.outputOhms,
    henries: henries ?? usual.henries,
    picofarads: picofarads ?? usual.picofarads,
  };
}
