/** A device that is there begins within a second, also one that is asleep. */
const patienceMs = 3000;

/** Calls `tell` when a context that was told to run has not begun after a while, and is still wanted. */
export function tellWhenSilent(context: AudioContext, isWanted: () => boolean, tell: () => void): void {
  setTimeout(() => {
    if (context.state === "suspended" && context.currentTime === 0 && isWanted()) tell();
  }, patienceMs);
}

export const silentDeviceText =
  "The browser has nothing to play on: it found no sound device, or may not use one. Plug in or choose loudspeakers or headphones in the sound settings of this machine, then load the page again.";
