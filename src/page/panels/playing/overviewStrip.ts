import type { Bench } from "../../contract/bench.js";
import type { Player } from "../../contract/player.js";
import { svg } from "../../widgets/dom.js";
import { StripPointer } from "./stripPointer.js";

/** The drawing's own units: it is stretched to the width it has. */
const width = 1000;
const height = 64;

/**
 * The take at a glance, with the position and the loop: press to go there, drag an end of the loop, or drag across to
 * draw a new one. What it does by the pointer the sliders below do by the keyboard, so it is kept from screen readers.
 */
export class OverviewStrip {
  readonly node: SVGSVGElement;
  readonly #bench: Bench;
  readonly #player: Player;
  readonly #wave = svg("path", { class: "wave" });
  readonly #region = svg("rect", { class: "region", y: 0, height });
  readonly #from = upright("end");
  readonly #to = upright("end");
  readonly #cursor = upright("cursor");
  #drawn: Float32Array | null = null;
  #hasFrame = false;

  constructor(bench: Bench) {
    this.#bench = bench;
    this.#player = bench.player;
    this.node = svg(
      "svg",
      { class: "strip", viewBox: `0 0 ${width} ${height}`, preserveAspectRatio: "none", "aria-hidden": true },
      this.#region,
      this.#wave,
      this.#from,
      this.#to,
      this.#cursor,
    );
    new StripPointer(this.node, bench.player).listen();
  }

  update(): void {
    this.#showLoop();
    this.#moveCursor();
    this.#drawWave(this.#bench.overview);
    if (this.#player.playing) this.#follow();
  }

  #showLoop(): void {
    const { on, from, to } = this.#player.loop;
    const [left, right] = [this.#at(from), this.#at(to)];
    this.node.classList.toggle("looping", on);
    this.#region.setAttribute("x", String(left));
    this.#region.setAttribute("width", String(Math.max(0, right - left)));
    place(this.#from, left);
    place(this.#to, right);
  }

  #moveCursor(): void {
    place(this.#cursor, this.#at(this.#player.position));
  }

  #drawWave(peaks: Float32Array): void {
    if (peaks === this.#drawn) return;
    this.#drawn = peaks;
    this.#wave.setAttribute("d", wavePath(peaks));
  }

  /** Moves the cursor in every frame for as long as the sound goes on. */
  #follow(): void {
    if (this.#hasFrame) return;
    this.#hasFrame = true;
    requestAnimationFrame(() => {
      this.#hasFrame = false;
      this.#moveCursor();
      if (this.#player.playing && this.node.isConnected) this.#follow();
    });
  }

  #at(seconds: number): number {
    const { lengthSeconds } = this.#player;
    return lengthSeconds > 0 ? (seconds / lengthSeconds) * width : 0;
  }
}

function upright(look: string): SVGLineElement {
  return svg("line", { class: look, y1: 0, y2: height });
}

function place(line: SVGLineElement, x: number): void {
  line.setAttribute("x1", String(x));
  line.setAttribute("x2", String(x));
}

/** A closed shape from the peaks, alike above and below the middle. */
function wavePath(peaks: Float32Array): string {
  if (peaks.length === 0) return "";
  const loudest = Math.max(0.05, ...peaks);
  const x = (n: number) => ((n / Math.max(1, peaks.length - 1)) * width).toFixed(1);
  const y = (peak: number, sign: number) =>
    (height / 2 + (sign * peak * (height / 2 - 3)) / loudest).toFixed(1);
  const points = [...peaks];
  const above = points.map((peak, n) => `${x(n)},${y(peak, -1)}`);
  const below = points.map((peak, n) => `${x(n)},${y(peak, 1)}`).reverse();
  return `M${[...above, ...below].join("L")}Z`;
}
