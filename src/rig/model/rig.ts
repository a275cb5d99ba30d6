import type { SettingValue } from "../../sound/dsp/kernel.js";
import type { AxisGroup } from "./axis.js";
import type { PickupKind } from "./pickupKinds.js";

/** mono: one in, one out. mono-to-stereo: one in, two out. stereo: two in, two out. */
export const jackChoices = ["mono", "mono-to-stereo", "stereo"] as const;
export type Jacks = (typeof jackChoices)[number];

export const playsIntoChoices = ["stereo-desk", "two-amps", "one-amp", "mono-desk"] as const;
export type PlaysInto = (typeof playsIntoChoices)[number];

export const whenOffChoices = ["true-bypass", "buffered", "muted"] as const;
export type WhenOff = (typeof whenOffChoices)[number];
/** What a mix does to the dry sound: 1 - mix, or nothing. */
export const dryPathChoices = ["crossfade", "unity"] as const;
export type DryPath = (typeof dryPathChoices)[number];

/** Where a mono unit may go, in the order in which places are told. */
export const placeChoices = [
  "first",
  "doubled",
  "beside",
  "beside-after",
  "left",
  "right",
  "summed",
  "stereo",
] as const;
export type Place = (typeof placeChoices)[number];

export const boxChoices = ["splitter", "summing-box", "mixer"] as const;
export type BuyableBox = (typeof boxChoices)[number];

export interface Supply {
  readonly volts: number;
  readonly milliamps: number;
}
export interface SizeMm {
  readonly widthMm: number;
  readonly depthMm: number;
}

/** What a maker states of a box's jacks; null where nothing is stated. Levels are RMS of a sine, as data sheets have it. */
export interface JackFacts {
  readonly inputOhms: number | null;
  readonly outputOhms: number | null;
  /** The largest sine that its input takes without clipping. */
  readonly maxInputDbu: number | null;
  /** The largest sine that its output gives. */
  readonly maxOutputDbu: number | null;
}

/** One pedal of the rig, every default filled in. */
export interface Pedal extends JackFacts {
  readonly name: string;
  /** A key of `pedalModels`. */
  readonly model: string;
  readonly jacks: Jacks;
  /** Every setting of the model's table, in its order. */
  readonly settings: Readonly<Record<string, SettingValue>>;
  readonly supply: Supply | null;
  readonly size: SizeMm | null;
  readonly price: number | null;
  /** Delay of everything that goes through the pedal while it is on (converters), on top of the model's own. */
  readonly latencyMs: number;
  /** Trim of the pedal's output. */
  readonly levelDb: number;
  readonly invertsPolarity: boolean;
  /** By a kill-dry setting or with its mix at maximum. */
  readonly canGoFullyWet: boolean;
  /** Whether its mix takes the dry sound down as it brings the effect up; of no meaning without a mix. */
  readonly dryPath: DryPath;
  /**
   * Level of the dry sound that stays when the mix is at maximum, to full level; used when it cannot go fully wet and its
   * dry sound is not at unity anyhow.
   */
  readonly dryLeakDb: number;
  readonly whenOff: WhenOff;
  /** False for a pedal with no footswitch (a cabinet simulation that is always on). */
  readonly hasFootswitch: boolean;
  /** Others that could stand in this mono unit's place: mono ones, or stereo ones with settings of their own. */
  readonly alternatives: readonly Pedal[];
}

/** A box that is in the drawer already. */
export interface OnHand {
  readonly box: BuyableBox;
  readonly count: number;
  /** Splitter: outputs. Summing box: inputs. Mixer: stereo inputs (channel pairs). */
  readonly outputs: number;
  readonly inputs: number;
  readonly pairs: number;
  readonly buffered: boolean;
  /** Its channels (mixer) or outputs (splitter) have a mute each. */
  readonly mutes: boolean;
}

/** What a box costs when it must be bought, and what it states of its jacks. */
export interface BoxFacts extends JackFacts {
  readonly price: number | null;
  readonly supply: Supply | null;
  readonly size: SizeMm | null;
}

/** One size of a box as it is sold. */
export interface SoldBox extends BoxFacts {
  /** As in `OnHand`: a splitter's outputs, a summing box's inputs, a mixer's channel pairs; null: as many as it takes. */
  readonly jacks: number | null;
  readonly mutes: boolean;
}

/**
 * How full scale stands to volts: a sine whose peak reads `dbfs` has an RMS of `dbu` on the cable.
 * 0 dBu is the square root of 0.6 V, 0.7746 V.
 */
export interface LevelReference {
  readonly dbfs: number;
  readonly dbu: number;
}

/** The cables that a wiring is built with. */
export interface CableFacts {
  /** From the instrument to the first box. */
  readonly instrumentMetres: number;
  /** From box to box on the board. */
  readonly patchMetres: number;
  /** From the board to desk or amps. */
  readonly outputMetres: number;
  readonly picofaradsPerMetre: number;
}

/** What plays into the first box. With two outputs the split is at the instrument, and a stereo take feeds both. */
export interface Instrument extends Pick<JackFacts, "outputOhms"> {
  readonly outputs: 1 | 2;
  /** Its kind, which fills in what is not given of its coil; null where the rig names none. */
  readonly pickup: PickupKind | null;
  /** Of the pickup's coil; 0 for an output without one, null where it is not known. */
  readonly henries: number | null;
  /** Of the pickup itself, without cable. */
  readonly picofarads: number | null;
  readonly volume: VolumeControl | null;
  readonly tone: ToneControl | null;
}

/** What the take was played into when it was recorded; null where the rig does not tell. */
export interface TakeLoad {
  readonly ohms: number | null;
  /** Of the cable. */
  readonly picofarads: number | null;
}

/** The share of the track's resistance from wiper to earth: 1 full up. A taper is the knob's own affair. */
export interface VolumeControl {
  readonly ohms: number;
  readonly trackShare: number;
}

/** A capacitor to earth through the share of the track that is in use: 1 full up. */
export interface ToneControl extends VolumeControl {
  readonly nanofarads: number;
}

/** A magnetic pickup with its controls, all that it takes to solve its circuit. */
export interface Pickup extends Pick<Instrument, "volume" | "tone"> {
  readonly ohms: number;
  readonly henries: number;
  readonly picofarads: number;
}

/** What measuring on a take found of a return whose level the rig leaves open. Never in the rig file. */
export interface ReturnTrim {
  /** Onto the estimate that a wiring is drawn with. */
  readonly trimDb: number;
  /** Wet to dry at the buses as it is then. */
  readonly wetToDryDb: number;
  /** As the unit gives in line; at 0 dB, since in line there is no dry sound; or as far as a mixer goes. */
  readonly by: "in-line" | "no-dry" | "bound";
}

/** By plan, by the unit that returns. */
export type ReturnTrims = Readonly<Record<string, Readonly<Record<string, ReturnTrim>>>>;

/** The mixer of the parallel routings. */
export interface MixerSettings {
  /** Gain of the stereo pedals' pair. */
  readonly dryDb: number;
  /** Gain of each return; null: the gain at which wet to dry is what the unit's own mix gives. */
  readonly returnDb: number | null;
  /** Equal-power pan of each return, -1 left to 1 right; 3.01 dB down a side at the centre. */
  readonly returnPan: number;
}

/** A hand-drawn wiring as it stands in the rig file: boxes by id, cables as "box:jack > box:jack". */
export interface HandWiring {
  readonly label: string;
  readonly boxes: Readonly<Record<string, HandBox>>;
  readonly cables: readonly { readonly from: string; readonly to: string }[];
}
export type HandBox =
  | {
      readonly box: "pedal";
      /** Of the rig, or another that may stand in its place. */
      readonly pedal: string;
      /** A stereo unit of the same kind as this mono one. */
      readonly stereo?: boolean | undefined;
      readonly fullyWet: boolean;
      readonly settings: Readonly<Record<string, SettingValue>>;
    }
  | {
      readonly box: "splitter";
      readonly outputs: number;
      readonly buffered: boolean;
      readonly mutes?: boolean | undefined;
    }
  | { readonly box: "summing-box"; readonly inputs: number }
  | {
      readonly box: "mixer";
      readonly inputs: readonly {
        readonly gainDb: number;
        readonly pan: number;
        readonly mute?: boolean | undefined;
      }[];
      readonly outputs: 1 | 2;
    };

/** What decides among plans that keep every ask. */
export const deciderChoices = ["width", "cost", "boxes", "monoLoss"] as const;
export type Decider = (typeof deciderChoices)[number];

/** What the player will not give up; null, false and an empty list ask for nothing. */
export interface Asks {
  /** Width kept at least, as a share of the reference's. */
  readonly stereo: number | null;
  /** Mono units that stay behind what they follow. */
  readonly order: readonly string[];
  /** Mono units that no other stands in for. */
  readonly sameUnit: readonly string[];
  /** No second unit of any. */
  readonly oneOfEach: boolean;
  /** No unit on one side alone. */
  readonly bothSides: boolean;
  /** In the rig's currency. */
  readonly spendAtMost: number | null;
  readonly extraBoxesAtMost: number | null;
  readonly outletsAtMost: number | null;
  readonly milliampsAtMost: number | null;
  readonly boardCm2AtMost: number | null;
  readonly monoLossDbAtMost: number | null;
  /** All of them, the first first. */
  readonly first: readonly Decider[];
}

/** What `splitsum sweep` varies and wishes, unless its own words say otherwise. */
export interface SweepWords {
  /** Knobs of one group step together; groups are crossed. */
  readonly vary: readonly AxisGroup[];
  /** Wishes in words: "sideShare>=0.2". */
  readonly want: readonly string[];
  /** Measures that are better the more, and the less; the most important first. */
  readonly most: readonly string[];
  readonly least: readonly string[];
  readonly routings: readonly string[] | null;
  /** So many settings of the grid, drawn by chance; null: all. */
  readonly sample: number | null;
  readonly seed: number;
  /** How far the knobs of the second of two units may be off; null: exactly where the rig has them. */
  readonly tolerancePercent: number | null;
  readonly draws: number;
}

/** A rig, read and checked, every default filled in. Plain data: it can be sent to a worker or written as JSON. */
export interface Rig {
  readonly name: string;
  /** Path of the take beside the rig file, as written. */
  readonly take: string | null;
  readonly takeInto: TakeLoad;
  readonly playsInto: PlaysInto;
  readonly pedals: readonly Pedal[];
  readonly onHand: readonly OnHand[];
  /** Sizes of each kind of box, with what they cost. */
  readonly boxes: Readonly<Record<BuyableBox, readonly SoldBox[]>>;
  readonly currency: string;
  readonly mixer: MixerSettings;
  /** Null: levels are told in dBFS alone. */
  readonly reference: LevelReference | null;
  readonly instrument: Instrument;
  readonly destination: Pick<JackFacts, "inputOhms" | "maxInputDbu">;
  readonly cables: CableFacts;
  /** How the stereo unit differs from the mono unit, by pedal name; `"*"` for all. */
  readonly stereoUnit: Readonly<Record<string, Readonly<Record<string, SettingValue>>>>;
  /** How the second of two units differs from the first (knobs never match exactly), by pedal name; `"*"` for all. */
  readonly secondUnit: Readonly<Record<string, Readonly<Record<string, SettingValue>>>>;
  readonly wirings: Readonly<Record<string, HandWiring>>;
  /** Where mono units go in the routing `as-placed`, by name; those not named go where a builder tries first. */
  readonly places: Readonly<Record<string, Place>>;
  readonly asks: Asks;
  readonly sweep?: SweepWords;
  /** Where the levels of returns were measured on a take; otherwise they are estimates. */
  readonly returnTrims?: ReturnTrims;
  /** Loading is told and not heard. Never in the rig file. */
  readonly leavesLoadingOut?: boolean;
}
