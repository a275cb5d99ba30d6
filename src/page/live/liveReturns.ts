import type { ReturnTrims, Rig } from "../../rig/model/rig.js";
import type { Take } from "../../sound/audio/take.js";
import type { Engine } from "./engine/engine.js";
import type { PageInputs } from "./pageInputs.js";
import type { Clips } from "./takeFiles/pageSoundFiles.js";

/** Pedals and a take, and what measuring found of their returns. */
interface MeasuredFor {
  /** As JSON. */
  readonly pedals: string;
  readonly takeSha256: string;
  /** Null: those that the page came with. */
  readonly clips: Clips | null;
  readonly trims: ReturnTrims | undefined;
}

/**
 * Keeps the returns of a rig measured whose level it leaves open: as they came with the page, and anew when a pedal was
 * turned or another take came. A mixer's own knobs move a return without it.
 */
export class LiveReturns {
  readonly #engine: Engine;
  readonly #tailSeconds: number;
  readonly #original: MeasuredFor | null;
  #last: MeasuredFor | null;
  #firstClips: Clips | null = null;

  constructor(engine: Engine, { data: { report }, inputs: { rig, tailSeconds } }: PageInputs) {
    this.#engine = engine;
    this.#tailSeconds = tailSeconds;
    this.#original =
      rig && report
        ? { pedals: keyOf(rig), takeSha256: report.take.sha256, clips: null, trims: rig.returnTrims }
        : null;
    this.#last = this.#original;
  }

  /** The rig with its returns measured on this take; the same object where nothing is to be measured. */
  async measured(
    rig: Rig,
    ids: readonly string[],
    take: Take,
    clips: Clips,
    signal: AbortSignal,
  ): Promise<Rig> {
    if (rig.mixer.returnDb !== null) return rig;
    const pedals = keyOf(rig);
    this.#firstClips ??= clips;
    const known = [this.#original, this.#last].find(
      (past) =>
        past?.pedals === pedals &&
        past.takeSha256 === take.sha256 &&
        (past.clips ?? this.#firstClips) === clips,
    );
    if (known) return known.trims === rig.returnTrims ? rig : withTrims(rig, known.trims);
    const { samples, rateHz, sha256 } = take;
    const asWritten = withTrims(rig, undefined);
    const trims = await this.#engine.returns(
      {
        kind: "returns",
        rig: asWritten,
        ids,
        take: samples,
        rateHz,
        clips,
        tailSeconds: this.#tailSeconds,
      },
      { signal },
    );
    this.#last = { pedals, takeSha256: sha256, clips, trims };
    return withTrims(rig, trims);
  }
}

/** Pedals, and the wirings that returns are in: an alternative's plan is drawn from its pedal. */
const keyOf = ({ pedals, places, wirings, stereoUnit, secondUnit }: Rig): string =>
  JSON.stringify([pedals, places, wirings, stereoUnit, secondUnit]);

function withTrims({ returnTrims: _, ...rig }: Rig, trims: ReturnTrims | undefined): Rig {
  return trims ? { ...rig, returnTrims: trims } : rig;
}
