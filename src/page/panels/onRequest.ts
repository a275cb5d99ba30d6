import type { OnDemand } from "../contract/onDemand.js";
import { button } from "../widgets/button.js";
import { type Child, fill } from "../widgets/dom.js";
import { OnDemandStatus } from "../widgets/onDemandStatus.js";
import type { View } from "./view.js";

interface Request<Found> {
  /** Of the button. */
  readonly words: string;
  readonly start: () => void;
  readonly stop: () => void;
  readonly state: () => OnDemand<Found>;
  /** What is being done, for a listener to the screen. */
  readonly doing: string;
  /** Where results are drawn. */
  readonly results: HTMLElement;
  readonly draw: (found: Found) => readonly Child[];
  /** What is said once it is done. */
  readonly done: (found: Found) => string;
}

/** The button, the progress and the results of what is worked out when a person asks for it. */
export class OnRequest<Found> {
  readonly button: HTMLButtonElement;
  /** Progress, faults and results, one under the other. */
  readonly nodes: readonly HTMLElement[];
  readonly #view: View;
  readonly #request: Request<Found>;
  readonly #status: OnDemandStatus;
  #shown: Found | null = null;

  constructor(view: View, request: Request<Found>) {
    this.#view = view;
    this.#request = request;
    this.button = button(request.words, request.start);
    this.#status = new OnDemandStatus(request.doing, request.stop);
    this.nodes = [...this.#status.nodes, request.results];
  }

  update(): void {
    const { state, results, draw, done } = this.#request;
    const now = state();
    this.button.disabled = now.progress !== null || this.#view.bench.player.lengthSeconds === 0;
    this.#status.update(now);
    if (now.found === this.#shown || now.found === null) return;
    this.#shown = now.found;
    fill(results, ...draw(now.found));
    this.#view.say(done(now.found));
  }
}
