import { minimumPhaseTaps } from "../../sound/dsp/minimumPhase.js";
import { circuitChange, type LoadedCircuit } from "./loading.js";

/**
 * What a circuit does to a take, as a response: the level over frequency of the circuit as it is loaded, against the
 * load that the take was recorded into, without delay. Circuits of resistances, coils and capacitors that divide a level
 * have no more delay than that either.
 */
export const loadingTaps = (circuit: LoadedCircuit, rateHz: number): Float32Array =>
  minimumPhaseTaps(circuitChange(circuit), rateHz);
