import type { Player } from "../../contract/player.js";
import { setLoopFrom, setLoopTo } from "./loopEnds.js";

/** How near the pointer must be to an end of the loop to take it, px on the screen. */
const reachPx = 12;

/** The pointer on the strip: a press seeks, or takes an end of the loop; a drag moves that end, or draws a loop. */
export class StripPointer {
  readonly #strip: SVGSVGElement;
  readonly #player: Player;
  /** What a move does; null while nothing is pressed. */
  #move: ((seconds: number) => void) | null = null;

  constructor(strip: SVGSVGElement, player: Player) {
    this.#strip = strip;
    this.#player = player;
  }

  listen(): void {
    this.#strip.addEventListener("pointerdown", (event) => this.#press(event));
    this.#strip.addEventListener("pointermove", (event) => this.#move?.(this.#secondsAt(event)));
    for (const end of ["pointerup", "pointercancel"] as const) {
      this.#strip.addEventListener(end, () => {
        this.#move = null;
      });
    }
  }

  #press(event: PointerEvent): void {
    if (event.button !== 0) return;
    this.#strip.setPointerCapture(event.pointerId);
    const seconds = this.#secondsAt(event);
    const reach = (reachPx / this.#strip.getBoundingClientRect().width) * this.#player.lengthSeconds;
    this.#move = this.#loopEnd(seconds, reach) ?? this.#newLoop(seconds, reach);
  }

  /** Moves the end of the loop that is within reach; null where none is. */
  #loopEnd(seconds: number, reach: number): ((seconds: number) => void) | null {
    const player = this.#player;
    const { on, from, to } = player.loop;
    if (on && Math.abs(seconds - from) < reach) return (now) => setLoopFrom(player, now);
    if (on && Math.abs(seconds - to) < reach) return (now) => setLoopTo(player, now);
    return null;
  }

  /** Goes there; farther away than the reach, the pointer then draws a loop from there. */
  #newLoop(start: number, reach: number): (seconds: number) => void {
    const player = this.#player;
    player.seek(start);
    return (now) => {
      if (Math.abs(now - start) > reach)
        player.setLoop({ on: true, from: Math.min(now, start), to: Math.max(now, start) });
    };
  }

  #secondsAt({ clientX }: PointerEvent): number {
    const { left, width } = this.#strip.getBoundingClientRect();
    return Math.min(1, Math.max(0, (clientX - left) / width)) * this.#player.lengthSeconds;
  }
}
