import { choiceWords } from "../../../words/choiceWords.js";
import type { BenchChange } from "../../contract/bench.js";
import { button } from "../../widgets/button.js";
import { el, fill, setText } from "../../widgets/dom.js";
import { glued } from "../../widgets/typeset.js";
import { choiceKey } from "../choiceKey.js";
import { choiceOrder, choiceRank } from "../choiceOrder.js";
import { toggle } from "../playing/transport.js";
import { nameOf, type PagePart, reportOf, type View } from "../view.js";

/** What a player hears first: a row a choice, with a button that plays it and what it costs; the rest one tap further. */
export function shortChoices(view: View): PagePart {
  const rows = new Map<string, ShortRow>();
  const rowOf = (id: string): ShortRow => {
    const row = rows.get(id) ?? new ShortRow(view, id);
    rows.set(id, row);
    return row;
  };
  const first = el("ul", {});
  const rest = el("ul", {});
  const summary = el("summary", {});
  const more = el("details", {}, summary, rest);
  let placed = "";
  const place = () => {
    const order = choiceOrder(view);
    const now = JSON.stringify(order);
    if (now === placed) return;
    placed = now;
    fill(first, ...order.first.map((id) => rowOf(id).node));
    fill(rest, ...order.rest.map((id) => rowOf(id).node));
    more.hidden = order.rest.length === 0;
    setText(summary, `${order.rest.length} more to hear`);
  };
  const update = (change: BenchChange) => {
    place();
    for (const row of rows.values()) row.update(change);
  };
  update("report");
  return { node: el("div", { class: "short-choices" }, first, more), update };
}

/** One choice. */
class ShortRow {
  readonly node: HTMLElement;
  readonly #view: View;
  readonly #id: string;
  readonly #play: HTMLButtonElement;
  readonly #does = el("span", {});
  readonly #of = el("span", { class: "visually-hidden" });
  readonly #name = el("span", { class: "name" });
  readonly #rank = el("span", { class: "rank" });
  readonly #costs = el("p", { class: "costs" });

  constructor(view: View, id: string) {
    this.#view = view;
    this.#id = id;
    this.#play = button("", () => this.#press());
    this.#play.append(this.#does, this.#of);
    const key = choiceKey(view.bench.player.choices, id);
    this.node = el(
      "li",
      {},
      this.#play,
      el("div", {}, el("p", {}, this.#name, " ", this.#rank), this.#costs),
      key ? el("kbd", { "aria-hidden": true }, key) : null,
    );
  }

  update(change: BenchChange): void {
    const { player } = this.#view.bench;
    const isHeard = player.chosen === this.#id;
    setText(this.#does, isHeard && player.playing ? "Pause" : "Play");
    this.#play.disabled = player.lengthSeconds === 0;
    this.node.ariaCurrent = isHeard ? "true" : null;
    if (change === "player") return;
    const name = nameOf(this.#view, this.#id);
    setText(this.#of, ` ${name}`);
    setText(this.#name, name);
    setText(this.#rank, choiceRank(this.#view, this.#id));
    setText(this.#costs, glued(choiceWords(reportOf(this.#view), this.#id)));
  }

  /** Plays it from where the take is; pressed again, pauses. */
  #press(): void {
    const { player } = this.#view.bench;
    const wasHeard = player.chosen === this.#id;
    if (!wasHeard) player.choose(this.#id);
    if (wasHeard || !player.playing) toggle(player);
  }
}
