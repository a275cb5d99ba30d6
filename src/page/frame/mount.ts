import type { Bench, BenchChange, PageData } from "../contract/bench.js";
import { buildPanel } from "../panels/build/buildPanel.js";
import sheetCss from "../panels/build/sheet.css";
import { checkPanel } from "../panels/check/checkPanel.js";
import { keyOf } from "../panels/hear/chooser.js";
import { hearPanel } from "../panels/hear/hearPanel.js";
import { seePanel } from "../panels/see/seePanel.js";
import { sweepPanel } from "../panels/sweep/sweepPanel.js";
import { switchesPanel } from "../panels/switches/switchesPanel.js";
import { listenForDrops, takePanel } from "../panels/take/takePanel.js";
import { trialPanel } from "../panels/trial/trialPanel.js";
import { turnPanel } from "../panels/turn/turnPanel.js";
import { nameOf, type Panel, reportOf, type View, type ViewChange } from "../panels/view.js";
import { el, fill, setText } from "../widgets/dom.js";
import { markColours } from "../widgets/routingMark.js";
import { lasting } from "../widgets/typeset.js";
import { help } from "./keyHelp.js";
import { listenForKeys } from "./keys.js";
import { liveRegion } from "./liveRegion.js";
import css from "./page.css";
import { progressLine } from "./progressLine.js";

/**
 * Draws the page into `root` and keeps it in step with the bench. While a blind trial runs, everything else is out of
 * the document and hears of nothing, so that it cannot give away what is played.
 */
export function mountView(bench: Bench, root: HTMLElement, data: PageData): void {
  const live = liveRegion();
  const view: View = { bench, data, say: live.say, hidden: new Set(), redraw: () => tell("hidden") };
  const main = el("main", { id: "main" });
  const take = takePanel(view);
  const head = pageHead(view);
  const progress = progressLine(view);
  const hear = hearPanel(view);
  const rest: readonly Panel[] = [
    turnPanel(view),
    seePanel(view),
    switchesPanel(view),
    buildPanel(view),
    take,
    checkPanel(view),
    ...(data.sweep ? [sweepPanel(view, data.sweep)] : []),
  ];
  const everything = el("div", { class: "bench" });
  const trial = trialPanel(view, {
    alone(node) {
      root.classList.add("in-trial");
      fill(main, node);
      scrollTo(0, 0);
    },
    all() {
      root.classList.remove("in-trial");
      fill(main, everything);
      for (const change of ["rig", "take", "report", "player", "progress", "switches", "check"] as const)
        tell(change);
    },
  });
  const [turn, see, switches, build, , check, sweep] = rest;
  const column = [turn, ...(sweep ? [sweep] : []), see, switches, trial, build, take, check].map(
    ({ node }) => node,
  );
  fill(everything, hear.node, el("div", { class: "rest" }, ...column));
  fill(main, everything);

  function tell(change: ViewChange): void {
    if (trial.running) {
      trial.update(change);
      return;
    }
    for (const panel of [head, hear, trial, progress, ...rest]) panel.update(change);
  }
  const keyList = help();
  const style = el(
    "style",
    {},
    `${markColours()}\n${css}\n@media print{${sheetCss}}.trial-print{${sheetCss}}`,
  );
  const drop = el(
    "p",
    { class: "drop-hint", "aria-hidden": true },
    "Drop the take: it stays on this machine.",
  );
  fill(root, style, head.node, main, progress.node, live.node, drop, keyList.node);

  bench.listen((change) => {
    tell(change);
    announce(view, change, trial.running !== null);
  });
  listenForKeys(view, {
    get on() {
      return keyList.keysOn;
    },
    help: keyList.open,
    digit(digit) {
      if (trial.running) trial.running.chooseKey(digit);
      else {
        const id = bench.player.choices.find((choice) => keyOf(bench.player.choices, choice) === digit);
        if (id) bench.player.choose(id);
      }
    },
  });
  listenForDrops(root, (file) => {
    if (!trial.running) void take.load(file);
  });
}

/** The name of the rig, what it is heard on, and the way to the parts of the page. */
function pageHead(view: View): Panel {
  const { bench } = view;
  const heading = el("h1", {}, bench.rig.name);
  const facts = el("p", { class: "facts" });
  const fault = el("p", { class: "fault", role: "alert" });
  const parts = [
    "Hear",
    "Turn",
    ...(view.data.sweep ? ["Sweep"] : []),
    "See",
    "Switches",
    "Trial",
    "Build",
    "Take",
    "Engine",
  ];
  const nav = el(
    "nav",
    { "aria-label": "Parts of the page" },
    ...parts.map((part) => el("a", { href: `#${part.toLowerCase()}` }, part)),
  );
  const update = (change: ViewChange) => {
    if (change === "hidden" || change === "player") return;
    const { routings, take } = reportOf(view);
    const ways = routings.filter(({ possible }) => possible).length;
    setText(
      facts,
      `${ways === 1 ? "One way" : `${ways} ways`} to wire it, heard on ${bench.takeName} (${lasting(take.frames / take.rateHz)}). ` +
        "This page needs no network.",
    );
    setText(fault, bench.fault ?? "");
  };
  update("report");
  return {
    node: el("header", { class: "head" }, heading, facts, nav, fault),
    update,
  };
}

let lastSaid = "";

/** Says once what a person who does not see the page should know. In a trial, only whether it plays. */
function announce(view: View, change: BenchChange, inTrial: boolean): void {
  const words = wordsFor(view, change, inTrial);
  if (words === "" || words === lastSaid) return;
  lastSaid = words;
  view.say(words);
}

function wordsFor(view: View, change: BenchChange, inTrial: boolean): string {
  const { player, progress, fault } = view.bench;
  switch (change) {
    case "player":
      return `${player.playing ? "Playing" : "Paused"}${inTrial ? "" : `: ${nameOf(view, player.chosen)}`}`;
    case "progress":
      return progress ? "Rendering." : "The figures are up to date.";
    case "fault":
      return fault ?? "";
    default:
      return "";
  }
}
