import type { Playback } from "./playback.js";
import { blindFadeSeconds, blindPauseSeconds } from "./playerGraph.js";

/**
 * Blind switching: every switch takes its whole time, whatever was asked for meanwhile; then the last that was asked
 * for is done. So neither time nor fade tells anything of the sounds.
 */
export class BlindSwitch {
  #on = false;
  #busyUntil = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** True from the first blind switch to `end`. */
  get on(): boolean {
    return this.#on;
  }

  /** @param whileSilent  called with the time at which nothing sounds any more */
  to(id: string, playback: Playback, whileSilent: (at: number) => void): void {
    this.#on = true;
    const go = () => {
      const at = playback.soon();
      playback.graph.selectBlind(id, at);
      whileSilent(at + blindFadeSeconds);
      this.#busyUntil = at + 2 * blindFadeSeconds + blindPauseSeconds;
    };
    clearTimeout(this.#timer);
    const wait = this.#busyUntil - playback.context.currentTime;
    if (wait > 0) this.#timer = setTimeout(go, 1000 * wait);
    else go();
  }

  /** @returns whether it was on */
  end(): boolean {
    const was = this.#on;
    clearTimeout(this.#timer);
    this.#on = false;
    this.#busyUntil = 0;
    return was;
  }
}
