import type { Pedal } from "../../rig/model/rig.js";
import { modelOf } from "../../rig/pedals/models.js";
import type { PedalUse } from "../../rig/pedals/pedalModel.js";
import { circuitChange, type LoadedCircuit } from "../../rig/wiring/loading.js";
import type { PedalBox } from "../../rig/wiring/wiring.js";
import { dbToGain } from "../../sound/dsp/units.js";
import { emptySpectrum, type Spectrum } from "../capture/sweepSpectrum.js";
import { bandWeight, type ToneLayout } from "../capture/toneLayout.js";
import { dampedSpectrum, type ProofGrid } from "./proofGrid.js";

/** Spectra of a pedal's effect by itself, `[output][input]`. */
export type EffectSpectra = readonly (readonly Spectrum[])[];

/** True for what swings by an LFO: its response is never the same. A reverb's inner swing leaves its energies alone. */
export const swings = ({ model, settings }: Pick<Pedal, "model" | "settings">): boolean =>
  modelOf(model).changesInTime && "phaseDegrees" in settings;

/** So slow that nothing moves while a response rings. */
const stillHz = 1e-6;

/** Every response starts so late. */
const leadSeconds = 0.01;

/** Effects of pedals and what circuits take, on one grid, each worked out once. */
export class UnitSpectra {
  readonly #grid: ProofGrid;
  readonly #clips: PedalUse["clips"];
  readonly #known = new Map<string, EffectSpectra>();
  readonly #circuits = new Map<string, Float64Array>();

  /**
   * What the tone lets through, a little late: a response that starts at once rings ahead of its start, where its band
   * ends.
   */
  readonly tone: Spectrum;

  constructor(grid: ProofGrid, clips: PedalUse["clips"], layout: ToneLayout) {
    this.#grid = grid;
    this.#clips = clips;
    this.tone = emptySpectrum(2 * grid.bins);
    for (let k = 1; k <= grid.bins; k++) {
      const weight = bandWeight(layout, k * grid.binHz);
      const angle = -2 * Math.PI * k * grid.binHz * leadSeconds;
      this.tone.re[k] = weight * Math.cos(angle);
      this.tone.im[k] = weight * Math.sin(angle);
    }
  }

  /** What a circuit makes of each bin; 0 at bin 0. */
  circuitGains(circuit: LoadedCircuit): Float64Array {
    const key = JSON.stringify(circuit);
    const known = this.#circuits.get(key);
    if (known) return known;
    const levelDb = circuitChange(circuit);
    const { bins, binHz } = this.#grid;
    const gains = Float64Array.from({ length: bins + 1 }, (_, k) =>
      k === 0 ? 0 : dbToGain(levelDb(k * binHz)),
    );
    this.#circuits.set(key, gains);
    return gains;
  }

  /**
   * @param phaseDegrees where an LFO is held still; of no meaning for what does not swing
   * @throws Error for a model that is not linear: it has no response
   */
  of({ pedal, inputs, outputs }: PedalBox, phaseDegrees: number): EffectSpectra {
    const model = modelOf(pedal.model);
    if (model.nonlinear) throw new Error(`a ${pedal.model} has no response`);
    const settings = swings(pedal)
      ? { ...pedal.settings, lfoHz: stillHz, phaseDegrees }
      : { ...pedal.settings };
    const heard = outputs === 1 ? 1 : inputs;
    const key = JSON.stringify([pedal.model, settings, heard, outputs]);
    const known = this.#known.get(key);
    if (known) return known;
    const use: PedalUse = {
      rateHz: this.#grid.rateHz,
      inputs: heard,
      outputs,
      interpolation: "cubic",
      clips: this.#clips,
    };
    const columns = Array.from({ length: heard }, (_, input) => {
      const fed = Array.from({ length: heard }, () => new Float32Array(this.#grid.frames));
      fed[input][0] = 1;
      const out = Array.from({ length: outputs }, () => new Float32Array(this.#grid.frames));
      model.kernel(settings, use).process(fed, out, this.#grid.frames);
      return out.map((response) => dampedSpectrum(response, this.#grid));
    });
    const spectra = Array.from({ length: outputs }, (_, output) => columns.map((column) => column[output]));
    this.#known.set(key, spectra);
    return spectra;
  }
}
