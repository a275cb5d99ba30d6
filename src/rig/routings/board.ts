import type { Pedal, PlaysInto, Rig } from "../model/rig.js";
import {
  type Box,
  type Cable,
  inputJacks,
  type Jack,
  type MixerBox,
  type MixerInput,
  outputJacks,
  type PedalBox,
  type Wiring,
} from "../wiring/wiring.js";
import { withMutes } from "../wiring/withMutes.js";
import { BoxNames } from "./boxNames.js";

/** Output jacks that carry a signal on: one for mono, two for left and right. */
export type Signal = readonly [Jack] | StereoSignal;
export type StereoSignal = readonly [Jack, Jack];

export interface MixerReturn {
  readonly from: Jack;
  readonly gainDb: number;
  readonly pan: number;
}

/** One amp or a mono desk: whatever arrives is summed. */
export const isMonoDestination = (playsInto: PlaysInto): boolean =>
  playsInto === "one-amp" || playsInto === "mono-desk";

export const isStereo = (signal: Signal): signal is StereoSignal => signal.length === 2;

export const destinationLabels: Readonly<Record<PlaysInto, string>> = {
  "stereo-desk": "Stereo desk",
  "two-amps": "Two amps",
  "one-amp": "Amp",
  "mono-desk": "Mono desk",
};

/** A board under construction. Each method sets a box down, cables it, and gives the jacks that carry on. */
export class Board {
  readonly #rig: Rig;
  readonly #boxes: Box[] = [];
  readonly #cables: Cable[] = [];
  readonly #names: BoxNames;
  /** What the builder should know of this wiring in particular. */
  readonly cautions: string[] = [];

  constructor(rig: Rig) {
    this.#rig = rig;
    this.#names = new BoxNames(rig);
  }

  /** The instrument with as many of its outputs in use. */
  take(outputs: 1 | 2 = this.#rig.instrument.outputs): Signal {
    const id = this.#names.free("take");
    const channels = this.#rig.instrument.outputs;
    return this.#outputs({ kind: "take", id, label: "Instrument", outputs, channels });
  }

  /**
   * A pedal in the signal's way. One with a single input that meets two sides gets their sum, and a caution says so.
   * `stereo: false` uses its mono output only; `label` is for one that does not go by its name.
   */
  pedal(
    pedal: Pedal,
    signal: Signal,
    how: Partial<Pick<PedalBox, "label" | "isUnit" | "fullyWet">> & { stereo?: boolean } = {},
  ): Signal {
    const { stereo = true, label, ...rest } = how;
    const id = label === undefined ? pedal.name : this.#names.free(label);
    let into = signal;
    if (isStereo(signal) && pedal.jacks !== "stereo") {
      into = this.sum(signal, `${pedal.name} sum`);
      this.cautions.push(
        `${pedal.name} has one input: left and right are summed into it, and the width made before it is lost.`,
      );
    }
    const box: PedalBox = {
      kind: "pedal",
      id,
      label: id,
      pedal,
      inputs: into.length,
      outputs: pedal.jacks !== "mono" && stereo ? 2 : 1,
      fullyWet: false,
      on: true,
      wetMuted: false,
      isUnit: false,
      ...rest,
    };
    return this.#place(box, into);
  }

  /** A mono unit by one input and one output. */
  unit(pedal: Pedal, from: Jack, label = pedal.name): Jack {
    return this.pedal(pedal, [from], { isUnit: true, ...(label === pedal.name ? {} : { label }) })[0];
  }

  /** A buffered splitter with `outputs` copies of a mono signal. */
  split(signal: Signal, outputs: number, label = "Splitter"): readonly Jack[] {
    const id = this.#names.free(label);
    const box = { kind: "splitter", id, label: id, outputs, buffered: true } as const;
    this.#add(box, signal);
    return outputJacks(box).map((jack) => ({ box: id, jack }));
  }

  /** (left + right) / 2 in a summing box. */
  sum(signal: readonly Jack[], label = "Summing box"): Signal {
    const id = this.#names.free(label);
    return this.#place({ kind: "summing-box", id, label: id, inputs: signal.length }, signal);
  }

  /** A mixer: the pair (or one mono channel) hard left and right, and each return panned as asked. */
  mixer(
    pair: Signal,
    returns: readonly MixerReturn[],
    how: { dryDb: number; outputs: 1 | 2; label: string },
  ): Signal {
    const id = this.#names.free(how.label);
    const dry: MixerInput[] = isStereo(pair)
      ? [
          { jack: "in 1 left", gainDb: how.dryDb, pan: -1 },
          { jack: "in 1 right", gainDb: how.dryDb, pan: 1 },
        ]
      : [{ jack: "in 1", gainDb: how.dryDb, pan: 0 }];
    const wet = returns.map(
      ({ gainDb, pan }, n): MixerInput => ({ jack: `in ${n + 2} (mono)`, gainDb, pan }),
    );
    const box: MixerBox = { kind: "mixer", id, label: id, inputs: [...dry, ...wet], outputs: how.outputs };
    return this.#place(box, [...pair, ...returns.map(({ from }) => from)]);
  }

  /** Into the desk or the amps: a mono destination gets the sum, two amps get a split of a mono signal. */
  deliver(signal: Signal): Wiring {
    const { playsInto } = this.#rig;
    const into = this.#fit(signal, playsInto);
    const label = destinationLabels[playsInto];
    const id = this.#names.free("destination");
    this.#add({ kind: "destination", id, label, inputs: into.length }, into);
    return withMutes({ boxes: this.#boxes, cables: this.#cables }, this.#rig);
  }

  #fit(signal: Signal, playsInto: PlaysInto): Signal {
    if (isStereo(signal) && isMonoDestination(playsInto)) return this.sum(signal, "Output sum");
    if (!isStereo(signal) && playsInto === "two-amps") {
      const [left, right] = this.split(signal, 2, "Amp splitter");
      return [left!, right!];
    }
    return signal;
  }

  #place(box: Box, from: readonly Jack[]): Signal {
    this.#add(box, from);
    return this.#outputs(box, false);
  }

  #outputs(box: Box, add = true): Signal {
    if (add) this.#boxes.push(box);
    const [left, right] = outputJacks(box).map((jack) => ({ box: box.id, jack }));
    return right ? [left!, right] : [left!];
  }

  #add(box: Box, from: readonly Jack[]): void {
    this.#boxes.push(box);
    inputJacks(box).forEach((jack, n) => {
      const source = from[n];
      if (source) this.#cables.push({ from: source, to: { box: box.id, jack } });
    });
  }
}
