import type { Wiring } from "../../rig/wiring/wiring.js";
import { type CompileOptions, defaultBlockFrames, WiringCompiler } from "./compile.js";
import { type Graph, GraphBuilder } from "./graph.js";
import type { Mix } from "./mix.js";

/** What reaches the two sides of a destination, as weighted sums of the graph's signals. */
export interface DestinationMixes {
  readonly left: Mix;
  readonly right: Mix;
}

/**
 * Wirings on their way into one graph, with their last sums left open: for those who mix by themselves. Wirings that
 * differ in nothing but those sums add no node and name the same signals.
 */
export class MixCompiler {
  readonly #builder = new GraphBuilder();
  readonly #options: CompileOptions;

  constructor(options: CompileOptions) {
    this.#options = options;
  }

  /** Kernels and inner sums of all wirings so far. */
  get nodeCount(): number {
    return this.#builder.nodeCount;
  }

  /** A destination with one input plays it on both sides. @throws Error when a wiring has not passed `checkWiring` */
  destinationOf(wiring: Wiring): DestinationMixes {
    const [left, right] = new WiringCompiler(wiring, this.#builder, this.#options).destination();
    return { left: left!, right: right ?? left! };
  }

  /** A graph whose outputs are these mixes, all equally late. */
  graphOf(outputs: readonly Mix[]): Graph {
    return this.#builder.build(outputs, this.#options.blockFrames ?? defaultBlockFrames);
  }
}
