import type { Bench } from "../../contract/bench.js";
import type { Player } from "../../contract/player.js";
import { button } from "../../widgets/button.js";
import { checkBox } from "../../widgets/checkBox.js";
import { el, setText } from "../../widgets/dom.js";
import { Slider, type SliderOptions } from "../../widgets/slider.js";
import { clock, spokenSeconds } from "../../widgets/typeset.js";
import type { PagePart } from "../view.js";
import { setLoopFrom, setLoopTo } from "./loopEnds.js";
import { OverviewStrip } from "./overviewStrip.js";

/** How often position and slider follow while playing; the strip follows every frame. */
const followMs = 250;

/**
 * Play, position and loop: by buttons and sliders, and by the pointer on the strip. Its first row is a bar that stays in
 * sight where the page is narrow (`playerBar.css`).
 */
export class Transport implements PagePart {
  readonly node: HTMLElement;
  readonly #player: Player;
  readonly #strip: OverviewStrip;
  readonly #play: HTMLButtonElement;
  readonly #at = el("span", {});
  readonly #length = el("span", { class: "length" });
  readonly #position: Slider;
  readonly #loop: ReturnType<typeof checkBox>;
  readonly #from: Slider;
  readonly #to: Slider;
  #isFollowing = false;

  /** @param pick  a list of what is heard, for the bar */
  constructor(bench: Bench, pick: HTMLElement | null = null) {
    const { player } = bench;
    this.#player = player;
    this.#play = button("Play", () => toggle(player), "play");
    this.#strip = new OverviewStrip(bench);
    this.#position = positionSlider(player);
    this.#loop = checkBox("Loop", (on) => player.setLoop({ on }));
    this.#from = loopSlider(player, "from", (seconds) => setLoopFrom(player, seconds));
    this.#to = loopSlider(player, "to", (seconds) => setLoopTo(player, seconds));
    const wholeTake = () => player.setLoop({ on: false, from: 0, to: player.lengthSeconds });
    const whole = button("Whole take", wholeTake);
    this.node = el(
      "div",
      { class: "transport" },
      el(
        "div",
        { class: "player-bar" },
        this.#play,
        pick,
        el("span", { class: "time" }, this.#at, this.#length),
        this.#position.node,
      ),
      this.#strip.node,
      el("div", { class: "loop" }, this.#loop.node, whole, this.#from.node, this.#to.node),
    );
    this.update();
  }

  update(): void {
    const { playing, lengthSeconds, loop } = this.#player;
    for (const { input } of [this.#position, this.#from, this.#to]) input.max = String(lengthSeconds);
    setText(this.#play, playing ? "Pause" : "Play");
    this.#loop.input.checked = loop.on;
    this.#from.set(loop.from);
    this.#to.set(loop.to);
    this.#play.disabled = lengthSeconds === 0;
    this.#strip.update();
    this.#showPosition();
    if (!playing || this.#isFollowing) return;
    this.#isFollowing = true;
    setTimeout(() => this.#follow(), followMs);
  }

  #showPosition(): void {
    const { position, lengthSeconds } = this.#player;
    this.#position.set(position);
    setText(this.#at, clock(position));
    setText(this.#length, ` of ${clock(lengthSeconds)}`);
  }

  #follow(): void {
    this.#isFollowing = this.#player.playing && this.node.isConnected;
    if (!this.#isFollowing) return;
    this.#showPosition();
    setTimeout(() => this.#follow(), followMs);
  }
}

export function toggle(player: Player): void {
  if (player.playing) player.pause();
  else player.play();
}

const positionSlider = (player: Player): Slider =>
  timeSlider(player, {
    label: "Position",
    bare: true,
    spoken: (value) => `${spokenSeconds(value)} of ${spokenSeconds(player.lengthSeconds)}`,
    onInput: (value) => player.seek(value),
  });

const loopSlider = (player: Player, label: string, onInput: (seconds: number) => void): Slider =>
  timeSlider(player, { label, name: `Loop ${label}`, spoken: spokenSeconds, onInput });

const timeSlider = (player: Player, options: Omit<SliderOptions, "min" | "max" | "step" | "words">): Slider =>
  new Slider({ min: 0, max: player.lengthSeconds, step: 0.05, words: clock, ...options });
