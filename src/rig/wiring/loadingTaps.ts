import { minimumPhaseTaps } from "../../sound/dsp/minimumPhase.js";
import { circuitChange, type LoadedCircuit } from "./loading.js";

/**
 * What a circuit does to a take, as a response: the level over frequency of the circuit as it is loaded, against the
 * load that the take was recorded into, without delay. Circuits of resistances, coils and capacitors that divide a level
 * have no more delay than that either.
 */
export function loadingTaps(circuit: LoadedCircuit, rateHz: number): Float32Array {
  const key = `${rateHz} ${JSON.stringify(circuit)}`;
  const known = lately.get(key);
  if (known) return known;
  const taps = minimumPhaseTaps(circuitChange(circuit), rateHz);
  lately.set(key, taps);
  for (const oldest of lately.keys()) if (lately.size > mostKept) lately.delete(oldest);
  return taps;
}

/** Of a comparison, several graphs in turn have the same circuits. Nobody writes to taps. */
const lately = new Map<string, Float32Array>();
const mostKept = 8;
