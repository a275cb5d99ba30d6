import { el } from "../../widgets/dom.js";
import type { Card } from "./pedalCard.js";

/** Narrowest column, in times the page's type size. */
const narrowestRem = 17;
const gapRem = 2;

/**
 * Cards in as many columns as there is room for, in their order down and then across. Which column a card is in follows
 * from the number of its controls, never from its height, so that nothing jumps while a knob is turned.
 */
export function inColumns(cards: readonly Card[]): HTMLElement {
  const node = el("div", { class: "cards" });
  let columns = 0;
  new ResizeObserver(([entry]) => {
    const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
    const room = entry.contentRect.width / rem;
    const next = Math.max(1, Math.floor((room + gapRem) / (narrowestRem + gapRem)));
    if (room === 0 || next === columns) return;
    columns = next;
    const focused = document.activeElement;
    const parts = shared(cards, columns);
    node.replaceChildren(...parts.map((part) => el("div", {}, ...part.map((card) => card.node))));
    if (focused instanceof HTMLElement && node.contains(focused)) focused.focus();
  }).observe(node);
  node.replaceChildren(el("div", {}, ...cards.map((card) => card.node)));
  return node;
}

const weight = ({ node }: Card): number => 1 + node.querySelectorAll(".setting").length;

/** Runs of cards, at most `columns` of them, the heaviest as light as can be. */
function shared(cards: readonly Card[], columns: number): readonly (readonly Card[])[] {
  const weights = cards.map(weight);
  const limits = weights.flatMap((_, from) => weights.map((__, to) => sum(weights.slice(from, to + 1))));
  const fitting = limits.sort((a, b) => a - b).map((limit) => runs(cards, weights, limit));
  return fitting.find((parts) => parts !== null && parts.length <= columns) ?? [cards];
}

/** Cards in runs no heavier than the limit; null where one alone is. */
function runs(cards: readonly Card[], weights: readonly number[], limit: number): Card[][] | null {
  const parts: Card[][] = [];
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
