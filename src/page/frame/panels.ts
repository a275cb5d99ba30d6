import { type BenchChange, benchChanges } from "../contract/bench.js";
import type { Extent } from "../contract/pageData.js";
import { answerPanel } from "../panels/answer/answerPanel.js";
import { BuildPanel } from "../panels/build/buildPanel.js";
import { checkPanel } from "../panels/check/checkPanel.js";
import { wiringsOf } from "../panels/choiceOrder.js";
import { DrawPanel } from "../panels/draw/drawPanel.js";
import { hearPanel } from "../panels/hear/hearPanel.js";
import { MeasurePanel } from "../panels/measure/measurePanel.js";
import { questionPanel } from "../panels/question/questionPanel.js";
import { replyPanel } from "../panels/reply/replyPanel.js";
import { rigPanel } from "../panels/rig/rigPanel.js";
import { seePanel } from "../panels/see/seePanel.js";
import { SweepPanel } from "../panels/sweep/sweepPanel.js";
import { switchesPanel } from "../panels/switches/switchesPanel.js";
import { TakePanel } from "../panels/take/takePanel.js";
import { ShortTrial } from "../panels/trial/shortTrial.js";
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
  /** Where it is shown; everywhere where this is left out. */
  readonly extent?: Extent;
  /** Is there before anything was worked out, and stays while the rig becomes another. */
  readonly isLasting?: boolean;
  /** Whether the rig as it stands gives it anything to show; left out where it always does. */
  readonly isMeant?: (view: View) => boolean;
  /** Null where the page has nothing to show in it. */
  readonly open: (view: View) => Panel | null;
}

/** The panels of the page, in their order. */
const kinds: readonly PanelKind[] = [
  {
    name: "Question",
    anchor: "question",
    heading: "The question",
    extent: "short",
    place: "first",
    open: questionPanel,
  },
  { name: "Hear", anchor: "hear", heading: "Hear the wirings", open: hearPanel, place: "beside" },
  { name: "Answer", anchor: "answer", heading: "Which to build", open: answerPanel, place: "first" },
  {
    name: "Blind",
    anchor: "blind",
    heading: "Try it blind",
    extent: "short",
    open: ifSeveral((view) => new ShortTrial(view)),
  },
  {
    name: "Reply",
    anchor: "reply",
    heading: "Which do you like?",
    extent: "short",
    open: ifSeveral(replyPanel),
  },
  ...bench(
    { name: "Rig", anchor: "rig", heading: "The rig", isLasting: true, open: rigPanel },
    {
      name: "Draw",
      anchor: "draw",
      heading: "Draw a wiring by hand",
      isLasting: true,
      isMeant: ({ bench: { desk } }) => desk.draft !== null,
      open: (view) => new DrawPanel(view),
    },
    { name: "Turn", anchor: "turn", heading: "Turn the knobs", open: turnPanel },
    { name: "Sweep", anchor: "sweep", heading: "Settings that were tried: the sweep", open: openSweep },
    { name: "See", anchor: "see", heading: "Figures and plots", open: seePanel },
    { name: "Switches", anchor: "switches", heading: "What the footswitches do", open: switchesPanel },
    { name: "Trial", anchor: "trial", heading: "Blind trial", open: (view) => new TrialPanel(view) },
    {
      name: "Build",
      anchor: "build",
      heading: "Cables, parts and cost",
      open: (view) => new BuildPanel(view),
    },
    {
      name: "Take",
      anchor: "take",
      heading: "Bring a take, or record one",
      isLasting: true,
      open: (view) => new TakePanel(view),
    },
    {
      name: "Measure",
      anchor: "measure",
      heading: "Measure a unit of yours",
      isLasting: true,
      open: (view) => new MeasurePanel(view),
    },
    { name: "Engine", anchor: "engine", heading: "Is the sound right? A second engine", open: checkPanel },
  ),
];

/** What is one tap further from the player's view. */
function bench(...panels: readonly PanelKind[]): readonly PanelKind[] {
  return panels.map((panel) => ({ ...panel, extent: "everything" }));
}

/** Of one wiring there is nothing to choose. */
function ifSeveral(open: (view: View) => Panel): PanelKind["open"] {
  return (view) => (wiringsOf(view).length > 1 ? open(view) : null);
}

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
  /** To be made for the rig as it is now, as soon as it is shown. */
  #isDue = true;

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
  /** Null where it is shown everywhere. */
  get extent(): Extent | null {
    return this.#kind.extent ?? null;
  }
  get isOpen(): boolean {
    return !this.node.hidden;
  }

  /** The rig has become another: the panel is to be made anew, but for one that lasts. */
  renew(): void {
    if (!this.#kind.isLasting) this.#isDue = true;
  }

  /** Opens it or puts it away. What was put away has heard of no change, so it is told of all. */
  show(view: View, extent: Extent): void {
    const wasOpen = this.isOpen;
    const isIn = (this.#kind.extent ?? extent) === extent;
    if (isIn && this.#kind.isMeant?.(view) === false) this.#putAway();
    else if (isIn && this.#isDue) this.#make(view);
    this.node.hidden = !isIn || this.#panel === null;
    if (this.isOpen && !wasOpen) for (const change of missable) this.update(change);
  }

  update(change: BenchChange): void {
    if (this.isOpen) this.#panel?.update(change);
  }
  receive(file: File): boolean {
    return this.#panel?.receive?.(file) ?? false;
  }

  /** There is nothing to show in it until it is made again. */
  #putAway(): void {
    this.#panel = null;
    this.#isDue = true;
    this.#section.refill();
  }

  #make(view: View): void {
    this.#isDue = false;
    this.#panel = view.bench.report || this.#kind.isLasting ? this.#kind.open(view) : null;
    this.#section.refill(...(this.#panel?.children ?? []));
  }
}

/** What a panel may have missed; the rig's shape is seen to by `renew`. */
export const missable = benchChanges.filter((change) => change !== "shape");

/** Places for all panels; each is opened by itself. */
export const panelPlaces = (): readonly PanelPlace[] => kinds.map((kind) => new PanelPlace(kind));
