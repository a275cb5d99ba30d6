import { el } from "../../widgets/dom.js";

/** Narrowest column, in times the page's type size. */
const narrowestRem = 17;
const gapRem = 2;

/**
 * Cards in as many columns as there is room for, in their order down and then across. Which column a card is in follows
 * from the number of its controls, never from its height, so that nothing jumps while a knob is turned.
 */
export function inColumns(cards: readonly HTMLElement[]): HTMLElement {
  const node = el("div", { class: "cards" }, el("div", {}, ...cards));
  let columns = 0;
  new ResizeObserver(([entry]) => {
    const next = columnsIn(entry.contentRect.width);
    if (next === 0 || next === columns) return;
    columns = next;
    keepingFocus(node, () => node.replaceChildren(...columnsOf(cards, columns)));
  }).observe(node);
  return node;
}

/** As many columns as stand side by side in that width, one at least; 0 where nothing is laid out. */
function columnsIn(widthPx: number): number {
  if (widthPx === 0) return 0;
  const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
  return Math.max(1, Math.floor((widthPx / rem + gapRem) / (narrowestRem + gapRem)));
}

function keepingFocus(node: HTMLElement, change: () => void): void {
  const focused = document.activeElement;
  change();
  if (focused instanceof HTMLElement && node.contains(focused)) focused.focus();
}

const columnsOf = (cards: readonly HTMLElement[], columns: number): readonly HTMLElement[] =>
  shared(cards, columns).map((part) => el("div", {}, ...part));

const weight = (card: HTMLElement): number => 1 + card.querySelectorAll(".setting").length;

/** Runs of cards, at most `columns` of them, the heaviest as light as can be. */
function shared(cards: readonly HTMLElement[], columns: number): readonly (readonly HTMLElement[])[] {
  const weights = cards.map(weight);
  const limits = weights.flatMap((_, from) => weights.map((__, to) => sum(weights.slice(from, to + 1))));
  const fitting = limits.sort((a, b) => a - b).map((limit) => runs(cards, weights, limit));
  return fitting.find((parts) => parts !== null && parts.length <= columns) ?? [cards];
}

/** Cards in runs no heavier than the limit; null where one alone is. */
function runs(
  cards: readonly HTMLElement[],
  weights: readonly number[],
  limit: number,
): HTMLElement[][] | null {
  const parts: HTMLElement[][] = [];
  let room = 0;
  for (const [n, card] of cards.entries()) {
    if (weights[n] > limit) return null;
    if (weights[n] > room) {
      parts.push([]);
      room = limit;
    }
    parts.at(-1)?.push(card);
    room -= weights[n];
  }
  return parts;
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, x) => total + x, 0);
