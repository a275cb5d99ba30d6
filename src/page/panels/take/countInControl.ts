import { type CountIn, countInBounds } from "../../contract/recorder.js";
import { ChoiceLine } from "../../widgets/choiceLine.js";
import { el } from "../../widgets/dom.js";
import { NumberControl } from "../../widgets/numberControl.js";

const kinds = [
  ["none", "none"],
  ["seconds", "seconds"],
  ["beats", "beats, with clicks"],
] as const satisfies readonly (readonly [CountIn["kind"], string])[];

/** What is counted ahead of a recording: nothing, seconds, or beats. */
export class CountInControl {
  readonly node: HTMLElement;
  #kind: CountIn["kind"] = "seconds";
  #seconds = countInBounds.seconds.default as number;
  #beats = countInBounds.beats.default as number;
  #perMinute = countInBounds.perMinute.default as number;

  constructor() {
    const owner = "Count-in";
    const seconds = new NumberControl(
      countInBounds.seconds,
      { name: "length", unit: "s", owner },
      (value) => {
        this.#seconds = value;
      },
    );
    const beats = new NumberControl(countInBounds.beats, { name: "beats", unit: "", owner }, (value) => {
      this.#beats = value;
    });
    const perMinute = new NumberControl(
      countInBounds.perMinute,
      { name: "tempo", unit: "", owner, hint: "beats a minute" },
      (value) => {
        this.#perMinute = value;
      },
    );
    seconds.set(this.#seconds);
    beats.set(this.#beats);
    perMinute.set(this.#perMinute);
    const show = () => {
      seconds.node.hidden = this.#kind !== "seconds";
      for (const { node } of [beats, perMinute]) node.hidden = this.#kind !== "beats";
    };
    const choice = new ChoiceLine<CountIn["kind"]>("Count-in", kinds, (kind) => {
      this.#kind = kind;
      show();
    });
    choice.set(this.#kind);
    show();
    this.node = el("div", { class: "count-in" }, choice.node, seconds.node, beats.node, perMinute.node);
  }

  get value(): CountIn {
    const kind = this.#kind;
    if (kind === "seconds") return { kind, seconds: this.#seconds };
    if (kind === "beats") return { kind, beats: this.#beats, perMinute: this.#perMinute };
    return { kind };
  }
}
