import { type PagePart, reportOf, type View } from "../panels/view.js";
import { el, setText } from "../widgets/dom.js";
import { lasting } from "../widgets/typeset.js";
import { extentLink } from "./extentLink.js";
import type { ExtentSwitch } from "./extentSwitch.js";
import type { PanelPlace } from "./panels.js";

/** The name of the rig, what it is heard on, what is wrong, and the way to the panels. */
export function pageHead(view: View, panels: readonly PanelPlace[], extents: ExtentSwitch): PagePart {
  const { bench } = view;
  const facts = el("p", { class: "facts" });
  const fault = el("p", { class: "fault", role: "alert" });
  const title = el("h1");
  const links = panels.map((panel) => {
    const link = el("a", { href: `#${panel.anchor}` }, panel.name);
    return { panel, link };
  });
  const nav = el("nav", { "aria-label": "Parts of the page" }, ...links.map(({ link }) => link));
  const extent = extentLink(extents);
  const update: PagePart["update"] = (change) => {
    if (change === "player") return;
    setText(title, rigName(view));
    setText(facts, bench.report ? factWords(view) : notYet);
    setText(fault, bench.fault ?? "");
    for (const { panel, link } of links) link.hidden = !panel.isOpen;
    nav.hidden = extents.now === "short";
    extent.show(extents.now);
  };
  update("report");
  return { node: el("header", { class: "head" }, title, facts, extent.node, nav, fault), update };
}

const notYet = "The ways to wire it, with sound and figures, come as soon as there is a rig and a take.";

function rigName({ bench: { desk } }: View): string {
  const { data } = desk;
  const name = typeof data === "object" && data !== null && "name" in data ? data.name : null;
  return typeof name === "string" && name !== "" ? name : "A rig without a name";
}

function factWords(view: View): string {
  const { routings, take } = reportOf(view);
  const { kept } = view.bench;
  const isKept = (id: string) => kept.some((each) => each.id === id);
  const ways = routings.filter(({ id, possible, recorded }) => possible && !recorded && !isKept(id)).length;
  return (
    `${ways === 1 ? "One way" : `${ways} ways`} to wire it${kept.length > 0 ? `, and ${kept.length} kept` : ""}, heard on ${view.bench.takeName} ` +
    `(${lasting(take.frames / take.rateHz)}). This page needs no network.`
  );
}
