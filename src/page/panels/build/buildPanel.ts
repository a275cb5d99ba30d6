import { el, fill, newId } from "../../widgets/dom.js";
import { printOnly } from "../../widgets/printOnly.js";
import { button, section } from "../../widgets/section.js";
import { type Panel, reportOf, type View } from "../view.js";
import { sheet } from "./benchSheet.js";
import { fitSheets } from "./fitSheets.js";

/** The bench sheets: one on the screen, all of them or that one in print. */
export function buildPanel(view: View): Panel {
  const id = newId("sheet");
  const picker = el("select", { id });
  const sheets = el("div", { class: "sheets" });
  let shown = view.bench.player.chosen;
  const show = () => {
    picker.value = shown;
    for (const node of sheets.children)
      node.classList.toggle("off-screen", node.getAttribute("data-id") !== shown);
  };
  picker.addEventListener("change", () => {
    shown = picker.value;
    show();
  });
  const update = () => {
    const possible = reportOf(view).routings.filter(({ build }) => build !== null);
    if (!possible.some((routing) => routing.id === shown)) shown = possible[0]?.id ?? "";
    fill(picker, ...possible.map((routing) => el("option", { value: routing.id }, routing.label)));
    fill(sheets, ...possible.map((routing) => sheetOf(view, routing.id)));
    show();
  };
  update();
  addEventListener("beforeprint", () => fitSheets(sheets));
  let chosen = view.bench.player.chosen;
  return {
    node: section(
      "build",
      "Build",
      el(
        "div",
        { class: "actions" },
        el("label", { for: id }, "Sheet"),
        picker,
        button("Print this sheet", () => printOnly("one")),
        button("Print all sheets", () => printOnly("all")),
      ),
      sheets,
    ),
    update(change) {
      if (change === "report") update();
      if (change !== "player" || chosen === view.bench.player.chosen) return;
      chosen = view.bench.player.chosen;
      if (chosen !== "dry") shown = chosen;
      show();
    },
  };
}

function sheetOf(view: View, id: string): HTMLElement | null {
  const { bench, data } = view;
  const { routings, reference } = reportOf(view);
  const routing = routings.find((one) => one.id === id);
  if (!routing?.build) return null;
  const node = sheet({
    rigName: bench.rig.name,
    takeName: bench.takeName,
    isReference: id === reference,
    routing,
    build: routing.build,
    layout: data.layouts[id],
  });
  node.setAttribute("data-id", id);
  return node;
}
