import type { Settings, SettingTable } from "../dsp/kernel.js";
import { type Nearness, rounding } from "./nearness.js";
import type { Quirks } from "./quirks.js";
import type { StandardContext, StandardNode } from "./webAudio.js";

/** A pedal as it stands in a wiring, with what arrives at it: one signal, or left and right. */
export interface FedPedal<T extends SettingTable = SettingTable> {
  readonly context: StandardContext;
  readonly settings: Settings<T>;
  readonly fed: readonly StandardNode[];
  readonly outputs: 1 | 2;
  /** Sound files that settings name, at the context's rate. */
  readonly clips: ReadonlyMap<string, readonly Float32Array[]>;
  /** See `loop.ts`. */
  readonly loopLateFrames: number;
  /** How long it plays. */
  readonly frames: number;
}

/** What a response may hang on, beside the settings. */
export interface ConvolverUse extends Pick<FedPedal, "outputs" | "clips"> {
  readonly rateHz: number;
  readonly inputs: 1 | 2;
}

/** How the wet sound of a model is made of standard nodes. */
export interface StandardModel<T extends SettingTable = SettingTable> {
  /** Why it cannot be at these settings, as the end of a sentence; null when it can. */
  whyNot(settings: Settings<T>, rateHz: number, quirks: Quirks): string | null;
  /** How near it comes to the kernel. */
  nearness(settings: Settings<T>, rateHz: number): Nearness;
  /** The responses that its convolvers have; left out where they are short. */
  convolvers?(settings: Settings<T>, use: ConvolverUse): readonly Float32Array[];
  /** One node an output, one channel each; the same sound as the model's kernel gives. */
  wet(pedal: FedPedal<T>): readonly StandardNode[];
}

/** One node a side that leaves: each hears its own side, or the only one there is. */
export function perSide(
  { fed, outputs }: Pick<FedPedal, "fed" | "outputs">,
  make: (input: StandardNode, side: 0 | 1) => StandardNode,
): readonly StandardNode[] {
  const sides: readonly (0 | 1)[] = outputs === 2 ? [0, 1] : [0];
  return sides.map((side) => make(fed[side] ?? fed[0], side));
}

export const always = () => null;

/** Of models that can be made at any settings, and part by no more than rounding. */
export const alwaysNear = { whyNot: always, nearness: () => rounding };
