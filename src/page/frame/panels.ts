import type { BenchChange } from "../contract/bench.js";
import { answerPanel } from "../panels/answer/answerPanel.js";
import { BuildPanel } from "../panels/build/buildPanel.js";
import { checkPanel } from "../panels/check/checkPanel.js";
import { hearPanel } from "../panels/hear/hearPanel.js";
import { rigPanel } from "../panels/rig/rigPanel.js";
import { seePanel } from "../panels/see/seePanel.js";
import { SweepPanel } from "../panels/sweep/sweepPanel.js";
import { switchesPanel } from "../panels/switches/switchesPanel.js";
import { TakePanel } from "../panels/take/takePanel.js";
import { TrialPanel } from "../panels/trial/trialPanel.js";
import { turnPanel } from "../panels/turn/turnPanel.js";
import type { PagePart, Panel, View } from "../panels/view.js";
import { type PageSection, pageSection } from "../widgets/pageSection.js";

type Place = "first" | "beside" | "rest";

interface PanelKind {
  /** In the list of the page's parts. */
  readonly name: string;
  readonly anchor: string;
  readonly heading: string;
  /** Comes before all others, or stands beside them where there is room and stays in sight. */
  readonly place?: Place;
  /** Is there before anything was worked out, and stays while the rig becomes another. */
  readonly isLasting?: boolean;
  /** Null where the page has nothing to show in it. */
  readonly open: (view: View) => Panel | null;
}

/** The panels of the page, in their order. */
const kinds: readonly PanelKind[] = [
  { name: "Hear", anchor: "hear", heading: "Hear the wirings", open: hearPanel, place: "beside" },
  { name: "Answer", anchor: "answer", heading: "Which to build", open: answerPanel, place: "first" },
  { name: "Rig", anchor: "rig", heading: "The rig", isLasting: true, open: rigPanel },
  { name: "Turn", anchor: "turn", heading: "Turn the knobs", open: turnPanel },
  { name: "Sweep", anchor: "sweep", heading: "Settings that were tried: the sweep", open: openSweep },
  { name: "See", anchor: "see", heading: "Figures and plots", open: seePanel },
  { name: "Switches", anchor: "switches", heading: "What the footswitches do", open: switchesPanel },
  { name: "Trial", anchor: "trial", heading: "Blind trial", open: (view) => new TrialPanel(view) },
  { name: "Build", anchor: "build", heading: "Cables, parts and cost", open: (view) => new BuildPanel(view) },
  {
    name: "Take",
    anchor: "take",
    heading: "Bring a take",
    isLasting: true,
    open: (view) => new TakePanel(view),
  },
  { name: "Engine", anchor: "engine", heading: "Is the sound right? A second engine", open: checkPanel },
];

function openSweep(view: View): Panel | null {
  const { sweep } = view.data;
  return sweep ? new SweepPanel(view, sweep) : null;
}

/** A part of the page under its heading: a panel, or nothing yet. */
export class PanelPlace implements PagePart {
  readonly name: string;
  readonly anchor: string;
  readonly place: Place;
  readonly #kind: PanelKind;
  readonly #section: PageSection;
  #panel: Panel | null = null;

  constructor(kind: PanelKind) {
    this.name = kind.name;
    this.anchor = kind.anchor;
    this.place = kind.place ?? "rest";
    this.#kind = kind;
    this.#section = pageSection(kind.anchor, kind.heading);
  }

  get node(): HTMLElement {
    return this.#section.node;
  }
  get isOpen(): boolean {
    return this.#panel !== null;
  }

  /** Makes the panel for the rig as it is now; one that lasts is made once. */
  open(view: View): void {
    if (this.#panel && this.#kind.isLasting) return;
    this.#panel = view.bench.report || this.#kind.isLasting ? this.#kind.open(view) : null;
    this.#section.refill(...(this.#panel?.children ?? []));
    this.node.hidden = !this.#panel;
  }

  update(change: BenchChange): void {
    this.#panel?.update(change);
  }
  receive(file: File): boolean {
    return this.#panel?.receive?.(file) ?? false;
  }
}

/** Places for all panels; each is opened by itself. */
export const panelPlaces = (): readonly PanelPlace[] => kinds.map((kind) => new PanelPlace(kind));
