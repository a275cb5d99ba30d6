import { el, fill, newId, setText } from "../../widgets/dom.js";
import { routingMark } from "../../widgets/routingMark.js";
import { swatch } from "../../widgets/swatch.js";
import { signed, withUnit } from "../../widgets/typeset.js";
import { nameOf, type Panel, reportOf, routingOf, type View } from "../view.js";

/** The key of a choice: 1 to 9 for routings, 0 for the dry take; null from the tenth routing on. */
export function keyOf(choices: readonly string[], id: string): string | null {
  if (id === "dry") return "0";
  const number = choices.indexOf(id) + 1;
  return number >= 1 && number <= 9 ? String(number) : null;
}

/** Which routing is heard: one radio button each, with its key, mark and gain. */
export function chooser(view: View): Panel {
  const { player } = view.bench;
  const rows = player.choices.map((id) => choiceRow(view, id));
  const says = el("p", { class: "says" });
  const node = el(
    "div",
    { class: "chooser" },
    el("fieldset", {}, el("legend", {}, "Heard now"), ...rows.map((row) => row.node)),
    says,
    impossible(view),
  );
  const update = () => {
    const hadFocus = rows.some(({ node: row }) => row.contains(document.activeElement));
    for (const row of rows) row.update();
    if (hadFocus) node.querySelector<HTMLElement>("input:checked")?.focus();
    const routing = routingOf(view, player.chosen);
    setText(says, routing ? routing.says : "The take as it was played, before any pedal.");
  };
  update();
  return { node, update };
}

function choiceRow(view: View, id: string): { node: HTMLElement; update(): void } {
  const { player } = view.bench;
  const all = reportOf(view).routings.map((routing) => routing.id);
  const input = el("input", { type: "radio", name: "routing", id: newId("choice"), value: id });
  const key = keyOf(player.choices, id);
  const name = el("span", { class: "name" });
  const isReference = el("span", { class: "reference" });
  const gain = el("span", { class: "gain" });
  input.addEventListener("change", () => player.choose(id));
  const node = el(
    "label",
    { class: "choice", for: input.id },
    input,
    key ? el("kbd", {}, key) : el("span", {}),
    swatch(routingMark(id, all)),
    el("span", { class: "names" }, name, isReference),
    gain,
  );
  return {
    node,
    update() {
      input.checked = player.chosen === id;
      setText(name, nameOf(view, id));
      setText(isReference, reportOf(view).reference === id ? " reference" : "");
      setText(gain, withUnit(signed(player.gainDb(id), 1), "dB"));
    },
  };
}

function impossible(view: View): HTMLElement | null {
  const routings = view.data.report.routings.filter(({ possible }) => !possible);
  if (routings.length === 0) return null;
  const list = el("dl", {});
  fill(list, ...routings.flatMap(({ label, reason }) => [el("dt", {}, label), el("dd", {}, reason ?? "")]));
  return el(
    "details",
    { class: "impossible" },
    el("summary", {}, `Not possible with this rig (${routings.length})`),
    list,
  );
}
