import { StereoMeter } from "../../../src/sound/measure/stereoMeter.js";
import type { Products } from "../../../src/work/sweep/products.js";
import { StemMeter } from "../../../src/work/sweep/stemMeter.js";

/** Products of whole stems; `further` have whole-take products alone. */
export function productsOf(
  stems: readonly Float32Array[],
  rateHz: number,
  further: readonly Float32Array[] = [],
): Products {
  const full = stems.map((_, n) => n);
  const plain = further.map((_, n) => stems.length + n);
  const meter = new StemMeter(rateHz, [{ full, plain }]);
  meter.push([...stems, ...further], stems[0].length);
  return meter.result()[0];
}

/** The mix itself, summed in doubles and rounded once, as the engine does. */
export function mixed(stems: readonly Float32Array[], gains: readonly number[]): Float32Array {
  return Float32Array.from({ length: stems[0].length }, (_, n) =>
    stems.reduce((sum, stem, i) => sum + gains[i] * stem[n], 0),
  );
}

export function metered(left: Float32Array, right: Float32Array, rateHz: number) {
  const meter = new StereoMeter(rateHz);
  meter.push(left, right, left.length);
  return meter.result();
}
