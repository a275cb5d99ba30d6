import { dryId } from "../../../rig/wiring/dryWiring.js";
import { count } from "../../../text/numbers.js";
import { button } from "../../widgets/button.js";
import { el, fill, newId } from "../../widgets/dom.js";
import { nameOf, type PagePart, routingOf, type View } from "../view.js";

/** Holds the choice that is heard as it is now, beside the others, under a name; and lets go of it. */
export function keepChoice(view: View): PagePart {
  const { bench } = view;
  const id = newId("keep");
  const name = el("input", { type: "text", id, maxlength: 60, autocomplete: "off" });
  const keep = () => {
    const label = name.value.trim() || suggested(view);
    bench.keep(bench.player.chosen, label);
    name.value = "";
    view.say(`${label} is kept as a choice of its own.`);
  };
  name.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && !act.disabled) keep();
  });
  const act = button("Keep", keep);
  const keepAll = button("Keep every wiring of this rig", () => {
    const { kept, rig, report } = bench;
    const own = (report?.routings ?? []).filter(
      ({ id, measures, recorded }) => measures && !recorded && !kept.some((each) => each.id === id),
    );
    for (const { id, label } of own) bench.keep(id, `${rig.name}: ${label}`);
    view.say(`Kept: ${count(own.length, "wiring")} of ${rig.name}. Open another rig to hear both.`);
  });
  const list = el("ul", { class: "kept" });
  const update = () => {
    name.placeholder = suggested(view);
    // A take or a recording has no settings to keep.
    const { chosen } = bench.player;
    act.disabled = chosen === dryId || routingOf(view, chosen)?.recorded !== undefined;
    fill(
      list,
      ...bench.kept.map((each) =>
        el(
          "li",
          {},
          each.label,
          " ",
          forgetButton(() => bench.forget(each.id), each.label),
        ),
      ),
    );
    list.hidden = bench.kept.length === 0;
  };
  update();
  const label = el("label", { for: id }, "Keep what is heard, as it is set now, as ");
  const node = el(
    "details",
    { class: "keep", open: bench.kept.length > 0 },
    el("summary", {}, "Keep this to compare"),
    label,
    name,
    act,
    el(
      "p",
      { class: "hint" },
      "What is kept stays when another rig is opened: two rigs can be heard against each other. ",
      keepAll,
    ),
    list,
  );
  return { node, update };
}

function forgetButton(forget: () => void, label: string): HTMLElement {
  const made = button("Forget", forget, "quiet");
  made.setAttribute("aria-label", `Forget ${label}`);
  return made;
}

const suggested = (view: View): string => `${nameOf(view, view.bench.player.chosen)}, as it was`;
