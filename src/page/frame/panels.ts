import { answerPanel } from "../panels/answer/answerPanel.js";
import { BuildPanel } from "../panels/build/buildPanel.js";
import { checkPanel } from "../panels/check/checkPanel.js";
import { hearPanel } from "../panels/hear/hearPanel.js";
import { seePanel } from "../panels/see/seePanel.js";
import { SweepPanel } from "../panels/sweep/sweepPanel.js";
import { switchesPanel } from "../panels/switches/switchesPanel.js";
import { TakePanel } from "../panels/take/takePanel.js";
import { TrialPanel } from "../panels/trial/trialPanel.js";
import { turnPanel } from "../panels/turn/turnPanel.js";
import type { PagePart, Panel, View } from "../panels/view.js";
import { section } from "../widgets/pageSection.js";

interface PanelKind {
  /** In the list of the page's parts. */
  readonly name: string;
  readonly anchor: string;
  readonly heading: string;
  /** Stands beside the others where there is room, and stays in sight. */
  readonly isBeside?: boolean;
  /** Null where the page has nothing to show in it. */
  readonly open: (view: View) => Panel | null;
}

/** The panels of the page, in their order. */
const kinds: readonly PanelKind[] = [
  { name: "Hear", anchor: "hear", heading: "Hear", open: hearPanel, isBeside: true },
  { name: "Answer", anchor: "answer", heading: "Which to build", open: answerPanel },
  { name: "Turn", anchor: "turn", heading: "Turn", open: turnPanel },
  { name: "Sweep", anchor: "sweep", heading: "Sweep", open: openSweep },
  { name: "See", anchor: "see", heading: "See", open: seePanel },
  { name: "Switches", anchor: "switches", heading: "Switches", open: switchesPanel },
  { name: "Trial", anchor: "trial", heading: "Blind trial", open: (view) => new TrialPanel(view) },
  { name: "Build", anchor: "build", heading: "Build", open: (view) => new BuildPanel(view) },
  { name: "Take", anchor: "take", heading: "Bring a take", open: (view) => new TakePanel(view) },
  { name: "Engine", anchor: "engine", heading: "Engine", open: checkPanel },
];

function openSweep(view: View): Panel | null {
  const { sweep } = view.data;
  return sweep ? new SweepPanel(view, sweep) : null;
}

/** A panel under its heading. */
export interface OpenPanel extends PagePart, Pick<PanelKind, "name" | "anchor"> {
  readonly isBeside: boolean;
}

/** All panels that this page has something to show in. */
export function openPanels(view: View): readonly OpenPanel[] {
  return kinds.flatMap(({ name, anchor, heading, isBeside = false, open }) => {
    const panel = open(view);
    if (!panel) return [];
    const node = section(anchor, heading, ...panel.children);
    return [{ name, anchor, isBeside, node, update: (change) => panel.update(change) }];
  });
}
