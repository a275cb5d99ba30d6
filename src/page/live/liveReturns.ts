import type { Pedal, ReturnTrims, Rig } from "../../rig/model/rig.js";
import type { Take } from "../../sound/audio/take.js";
import type { Engine } from "./engine/engine.js";
import type { PageInputs } from "./pageInputs.js";

/** Pedals and a take, and what measuring found of their returns. */
interface MeasuredFor {
  readonly pedals: readonly Pedal[];
  readonly takeSha256: string;
  readonly trims: ReturnTrims | undefined;
}

/**
 * Keeps the returns of a rig measured whose level it leaves open: as they came with the page, and anew when a pedal was
 * turned or another take came. A mixer's own knobs move a return without it.
 */
export class LiveReturns {
  readonly #engine: Engine;
  readonly #ids: readonly string[];
  readonly #tailSeconds: number;
  readonly #original: MeasuredFor;
  #last: MeasuredFor;

  constructor(engine: Engine, { data, inputs }: PageInputs, ids: readonly string[]) {
    this.#engine = engine;
    this.#ids = ids;
    this.#tailSeconds = inputs.tailSeconds;
    const { pedals, returnTrims } = inputs.rig;
    this.#original = { pedals, takeSha256: data.report.take.sha256, trims: returnTrims };
    this.#last = this.#original;
  }

  /** The rig with its returns measured on this take; the same object where nothing is to be measured. */
  async measured(
    rig: Rig,
    take: Take,
    clips: ReadonlyMap<string, readonly Float32Array[]>,
    signal: AbortSignal,
  ): Promise<Rig> {
    if (rig.mixer.returnDb !== null) return rig;
    const { pedals } = rig;
    const known = [this.#original, this.#last].find(
      (past) => past.pedals === pedals && past.takeSha256 === take.sha256,
    );
    if (known) return known.trims === rig.returnTrims ? rig : withTrims(rig, known.trims);
    const { samples, rateHz, sha256 } = take;
    const asWritten = withTrims(rig, undefined);
    const trims = await this.#engine.returns(
      {
        kind: "returns",
        rig: asWritten,
        ids: this.#ids,
        take: samples,
        rateHz,
        clips,
        tailSeconds: this.#tailSeconds,
      },
      { signal },
    );
    this.#last = { pedals, takeSha256: sha256, trims };
    return withTrims(rig, trims);
  }
}

function withTrims({ returnTrims: _, ...rig }: Rig, trims: ReturnTrims | undefined): Rig {
  return trims ? { ...rig, returnTrims: trims } : rig;
}
