import { type PagePart, reportOf, type View } from "../panels/view.js";
import { el, setText } from "../widgets/dom.js";
import { lasting } from "../widgets/typeset.js";
import type { OpenPanel } from "./panels.js";

/** The name of the rig, what it is heard on, what is wrong, and the way to the panels. */
export function pageHead(view: View, panels: readonly OpenPanel[]): PagePart {
  const { bench } = view;
  const facts = el("p", { class: "facts" });
  const fault = el("p", { class: "fault", role: "alert" });
  const links = panels.map(({ name, anchor }) => el("a", { href: `#${anchor}` }, name));
  const update: PagePart["update"] = (change) => {
    if (change === "player") return;
    setText(facts, factWords(view));
    setText(fault, bench.fault ?? "");
  };
  update("report");
  const nav = el("nav", { "aria-label": "Parts of the page" }, ...links);
  return { node: el("header", { class: "head" }, el("h1", {}, bench.rig.name), facts, nav, fault), update };
}

function factWords(view: View): string {
  const { routings, take } = reportOf(view);
  const possible = routings.filter((routing) => routing.possible).length;
  return (
    `${possible === 1 ? "One way" : `${possible} ways`} to wire it, heard on ${view.bench.takeName} ` +
    `(${lasting(take.frames / take.rateHz)}). This page needs no network.`
  );
}
