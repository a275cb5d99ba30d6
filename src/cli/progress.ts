import cliProgress from "cli-progress";
import { duration } from "../text/numbers.js";

export interface Progress {
  /** @param done  0 to 1 */
  readonly at: (done: number, what: string) => void;
  readonly end: () => void;
}

/** A bar on standard error with share and time left; it goes when the work ends. Off a terminal: nothing. */
export function progressBar(live: boolean, what: string): Progress {
  if (!live) return { at: () => {}, end: () => {} };
  const bar = new cliProgress.SingleBar({
    stream: process.stderr,
    format: (options, { progress, startTime }, { what: now }) => {
      const seconds = (Date.now() - startTime) / 1000;
      const left = progress > 0.02 ? `, ${duration((seconds * (1 - progress)) / progress)} left` : "";
      const size = options.barsize ?? 30;
      const full = Math.round(progress * size);
      return `[${"#".repeat(full)}${"-".repeat(size - full)}] ${Math.round(100 * progress)} %${left}  ${now}`;
    },
    barsize: 24,
    hideCursor: false,
    clearOnComplete: true,
    stopOnComplete: false,
    gracefulExit: false,
    fps: 10,
  });
  bar.start(1, 0, { what });
  let isOpen = true;
  // Work that goes over the take once more would run backwards.
  let most = 0;
  return {
    at: (done, now) => {
      most = Math.max(most, done);
      if (isOpen) bar.update(most, { what: now });
    },
    end: () => {
      if (isOpen) bar.stop();
      isOpen = false;
    },
  };
}
