import type { Player } from "../contract/player.js";
import { choiceKey } from "../panels/choiceKey.js";
import { setLoopFrom, setLoopTo } from "../panels/playing/loopEnds.js";
import { toggle } from "../panels/playing/transport.js";
import type { View } from "../panels/view.js";
import type { KeyHelp } from "./keyHelp.js";

const seekSeconds = 2;
const farSeekSeconds = 10;

/** Listens for the keys of the whole page. */
export function listenForKeys(view: View, help: KeyHelp): void {
  document.addEventListener("keydown", (event) => {
    const { key, target } = event;
    if (event.ctrlKey || event.altKey || event.metaKey || event.defaultPrevented || isTyped(target)) return;
    if (key === "?") help.open();
    else if (help.keysOn && !document.querySelector("dialog[open]") && act(view, event))
      event.preventDefault();
  });
}

/** True when the key did something. */
function act(view: View, event: KeyboardEvent): boolean {
  const { player } = view.bench;
  const { key, target } = event;
  if (/^[0-9]$/.test(key)) chooseDigit(view, key);
  else if (key === "[") setLoopFrom(player, player.position);
  else if (key === "]") setLoopTo(player, player.position);
  else if (key === " " && !takesSpace(target)) playOrPause(player, event);
  else if ((key === "ArrowLeft" || key === "ArrowRight") && !takesArrows(target)) seek(player, event);
  else return false;
  return true;
}

function chooseDigit({ bench: { player }, stage }: View, digit: string): void {
  const id = player.choices.find((choice) => choiceKey(player.choices, choice) === digit);
  if (stage.soloist) stage.soloist.chooseKey(digit);
  else if (id !== undefined) player.choose(id);
}

/** Once a press, however long it is held. */
function playOrPause(player: Player, { repeat }: KeyboardEvent): void {
  if (!repeat) toggle(player);
}

function seek(player: Player, { key, shiftKey }: KeyboardEvent): void {
  const by = (key === "ArrowLeft" ? -1 : 1) * (shiftKey ? farSeekSeconds : seekSeconds);
  player.seek(Math.min(player.lengthSeconds, Math.max(0, player.position + by)));
}

/** Fields and lists keep all their keys. */
function isTyped(target: EventTarget | null): boolean {
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
