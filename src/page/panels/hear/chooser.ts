import { el, setText } from "../../widgets/dom.js";
import { type PagePart, reportOf, routingOf, type View } from "../view.js";
import { ChoiceRow } from "./choiceRow.js";

/** Which routing is heard: one radio button each; what it is, in words; and which are not possible. */
export function chooser(view: View): PagePart {
  const { player } = view.bench;
  const rows = player.choices.map((id) => new ChoiceRow(view, id));
  const description = el("p", { class: "says" });
  const legend = el("legend", {}, "Heard now", el("span", { "aria-hidden": true }, "to buy"));
  const choices = el("fieldset", {}, legend, ...rows.map(({ node }) => node));
  const silent = el("p", { class: "hint" });
  const node = el("div", { class: "chooser" }, choices, description, impossible(view), silent);
  const update = () => {
    const hadFocus = choices.contains(document.activeElement);
    for (const row of rows) row.update();
    if (hadFocus) choices.querySelector<HTMLElement>("input:checked")?.focus();
    setText(silent, silentWords(view));
    setText(description, routingOf(view, player.chosen)?.says ?? dryDescription);
  };
  update();
  return { node, update };
}

const dryDescription = "The take as it was played, before any pedal.";

/** Which recordings are not in the page. */
function silentWords(view: View): string {
  const { routings } = reportOf(view);
  const { choices } = view.bench.player;
  const silent = routings.filter(({ id, recorded }) => recorded && !choices.includes(id));
  if (silent.length === 0) return "";
  return `Not to be heard here, as too long to travel in a page: ${silent.map(({ label }) => label).join(", ")}. The files stand beside the page.`;
}

function impossible(view: View): HTMLElement | null {
  const routings = reportOf(view).routings.filter(({ possible }) => !possible);
  if (routings.length === 0) return null;
  const reasons = routings.flatMap(({ label, reason }) => [el("dt", {}, label), el("dd", {}, reason ?? "")]);
  return el(
    "details",
    { class: "impossible" },
    el("summary", {}, `Not possible with this rig (${routings.length})`),
    el("dl", {}, ...reasons),
  );
}
