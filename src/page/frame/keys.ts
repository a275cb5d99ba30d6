import { setLoopFrom, setLoopTo } from "../panels/playing/loopEnds.js";
import { toggle } from "../panels/playing/transport.js";
import type { View } from "../panels/view.js";

export interface KeyTargets {
  /** False while the keys are turned off. */
  readonly on: boolean;
  digit(digit: string): void;
  help(): void;
}

const seekSeconds = 2;
const farSeekSeconds = 10;

/** Listens for the keys of the whole page. */
export function listenForKeys(view: View, targets: KeyTargets): void {
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey || event.defaultPrevented) return;
    if (event.key === "?" && !typing(event.target)) {
      targets.help();
      return;
    }
    if (!targets.on || typing(event.target) || document.querySelector("dialog[open]")) return;
    if (act(view, targets, event)) event.preventDefault();
  });
}

/** True when the key did something. */
function act(view: View, targets: KeyTargets, event: KeyboardEvent): boolean {
  const { player } = view.bench;
  const { key, target, shiftKey } = event;
  if (/^[0-9]$/.test(key)) {
    targets.digit(key);
    return true;
  }
  if (key === " " && !takesSpace(target)) {
    if (!event.repeat) toggle(view);
    return true;
  }
  if ((key === "ArrowLeft" || key === "ArrowRight") && !takesArrows(target)) {
    const by = (key === "ArrowLeft" ? -1 : 1) * (shiftKey ? farSeekSeconds : seekSeconds);
    player.seek(Math.min(player.lengthSeconds, Math.max(0, player.position + by)));
    return true;
  }
  if (key === "[") {
    setLoopFrom(view, player.position);
    return true;
  }
  if (key === "]") {
    setLoopTo(view, player.position);
    return true;
  }
  return false;
}

/** Fields and lists keep all their keys. */
function typing(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.isContentEditable || target.matches("textarea, select")) return true;
  return (
    target instanceof HTMLInputElement && !/^(radio|checkbox|range|button|submit|file)$/.test(target.type)
  );
}

const takesSpace = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  target.matches("button, summary, a, input[type=checkbox], input[type=file]");

/** Radio groups and sliders move by arrows, and what scrolls is scrolled by them. */
const takesArrows = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && target.matches("input[type=radio], input[type=range], [role=region]");
