import { toneLayout } from "../../../work/capture/toneLayout.js";
import { toneSettingsOf, toneSettingTable } from "../../../work/capture/toneSettings.js";
import type { BenchChange } from "../../contract/bench.js";
import type { CaptureOrder } from "../../contract/capture.js";
import { el } from "../../widgets/dom.js";
import { more } from "../../widgets/more.js";
import { NumberControl } from "../../widgets/numberControl.js";
import { OptionalNumber } from "../../widgets/optionalNumber.js";
import { PickList } from "../../widgets/pickList.js";
import { InputControl } from "../inputControl.js";
import type { View } from "../view.js";

/** Level of the first tone, dBFS: an interface is far louder than a guitar, and whoever needs more raises it. */
const firstLevelDbfs = -40;

/** In this order, with their units; the level first, the rest folded away. */
const toneFields = [
  ["levelDbfs", "dBFS"],
  ["lengthSeconds", "s"],
  ["gapSeconds", "s"],
  ["repeats", ""],
  ["fromHz", "Hz"],
  ["toHz", "Hz"],
] as const;
type ToneKey = (typeof toneFields)[number][0];

/** Which unit is measured, where it comes in, what is known of it, and by which tone. */
export class CaptureForm {
  readonly node: HTMLElement;
  readonly #view: View;
  readonly #unit = new PickList("unit", "Unit");
  readonly #unitChannel = new PickList("unit-channel", "The unit comes in on");
  readonly #cableChannel = new PickList("cable-channel", "A plain cable comes in on");
  readonly #input: InputControl;
  readonly #mix = new OptionalNumber({
    label: "mix that the unit is set to",
    unit: "",
    hint: "1: fully wet. Left empty it is not known.",
    min: 0.01,
    max: 1,
  });
  readonly #latency = new OptionalNumber({
    label: "latency by its maker",
    unit: "ms",
    hint: "what its converters delay all that goes through it by. Left empty it is not known.",
    min: 0,
    max: 1000,
  });
  readonly #tone: Record<ToneKey, number>;

  constructor(view: View) {
    this.#view = view;
    this.#tone = { ...firstTone };
    const [level, ...others] = toneFields.map(([key, unit]) => {
      const { says, ...bounds } = toneSettingTable[key];
      const isLong = unit.length > 2;
      const names = { name: isLong ? `${says}, ${unit}` : says, unit: isLong ? "" : unit, owner: "Tone" };
      const control = new NumberControl(bounds, names, (value) => {
        this.#tone[key] = value;
      });
      control.set(this.#tone[key]);
      return control.node;
    });
    this.#input = new InputControl(
      view,
      "tone",
      el("p", { class: "file-choice" }, this.#unitChannel.label, this.#unitChannel.list),
      el("p", { class: "file-choice" }, this.#cableChannel.label, this.#cableChannel.list),
      el("p", { class: "hint" }, cableHint),
    );
    this.node = el(
      "div",
      { class: "capture-form" },
      el("p", { class: "file-choice" }, this.#unit.label, this.#unit.list),
      this.#input.node,
      el("div", { class: "told" }, this.#mix.node, this.#latency.node),
      el("div", { class: "tone" }, level, more("the tone", ...others)),
    );
  }

  get hasUnit(): boolean {
    return unitNames(this.#view).length > 0;
  }

  /** Of the tone as it is set. */
  get toneSeconds(): number {
    const { frames, settings } = toneLayout(toneSettingsOf(this.#tone));
    return frames / settings.rateHz;
  }

  update(change: BenchChange): void {
    this.#input.update(change);
    if (change === "desk") this.#listUnits();
    if (change === "input") this.#listChannels();
  }

  /** What is asked for; null where a field does not fit, which then says so. */
  order(): CaptureOrder | null {
    const mix = this.#mix.read();
    const latencyMs = this.#latency.read();
    const wrong = [this.#mix, this.#latency].find((_, n) => [mix, latencyMs][n] === null);
    wrong?.focus();
    if (mix === null || latencyMs === null) return null;
    const cable = this.#cableChannel.value;
    return {
      unit: this.#unit.value,
      unitChannel: Number(this.#unitChannel.value),
      cableChannel: cable === "" ? null : Number(cable),
      tone: { ...this.#tone },
      told: {
        ...(mix === undefined ? {} : { mix }),
        ...(latencyMs === undefined ? {} : { latencyMs }),
      },
    };
  }

  #listUnits(): void {
    const names = unitNames(this.#view);
    this.#unit.setOptions(
      names.map((name) => [name, name]),
      this.#unit.value,
    );
  }

  #listChannels(): void {
    const { state } = this.#view.bench.input;
    if (state.kind !== "open") return;
    const channels = Array.from(
      { length: state.channels },
      (_, n) => [String(n), `channel ${n + 1}`] as const,
    );
    this.#unitChannel.setOptions(channels, this.#unitChannel.value);
    this.#cableChannel.setOptions([["", "none"], ...channels], this.#cableChannel.value);
  }
}

const firstTone = {
  levelDbfs: firstLevelDbfs,
  lengthSeconds: toneSettingTable.lengthSeconds.default,
  gapSeconds: toneSettingTable.gapSeconds.default,
  repeats: toneSettingTable.repeats.default,
  fromHz: toneSettingTable.fromHz.default,
  toHz: toneSettingTable.toHz.default,
};

/** Pedals with one input and one output, in the order of the signal, also while the rig has faults. */
function unitNames({ bench: { desk } }: View): readonly string[] {
  const { data } = desk;
  const pedals: unknown = typeof data === "object" && data !== null && "pedals" in data ? data.pedals : [];
  return (Array.isArray(pedals) ? pedals : []).flatMap((pedal: unknown) =>
    typeof pedal === "object" &&
    pedal !== null &&
    "name" in pedal &&
    typeof pedal.name === "string" &&
    pedal.name !== "" &&
    "jacks" in pedal &&
    pedal.jacks === "mono"
      ? [pedal.name]
      : [],
  );
}

const cableHint =
  "One output of the interface into the unit, the unit into one input; the tone comes out on all outputs alike. Another output by a plain cable into another input: with that, latency and level are known; without it, the way through browser and interface is in what comes back, and they are not.";
