import type { StereoField } from "../../contract/stereoField.js";

/** Cells along each edge: fine enough for a picture of some 200 pixels. */
export const fieldSize = 96;

/**
 * Density of left against right, turned 45 degrees: mid upwards, left at the left. Each frame adds its energy to the
 * cell at x = (right - left) / 2, y = (left + right) / 2, both from -1 to 1 across the picture.
 */
export class StereoFieldMeter {
  readonly #gain: number;
  readonly #energy = new Float64Array(fieldSize * fieldSize);
  /** @param gain  given to both channels first; what then lies outside counts at the edge */
  constructor(gain: number) {
    this.#gain = gain;
  }

  push(left: Float32Array, right: Float32Array, frames: number): void {
    const energy = this.#energy;
    const half = this.#gain / 2;
    const scale = fieldSize / 2;
    for (let n = 0; n < frames; n++) {
      const l = left[n];
      const r = right[n];
      const x = ((r - l) * half + 1) * scale;
      const y = (1 - (l + r) * half) * scale;
      const column = x < 0 ? 0 : x >= fieldSize ? fieldSize - 1 : x | 0;
      const row = y < 0 ? 0 : y >= fieldSize ? fieldSize - 1 : y | 0;
      energy[row * fieldSize + column] += l * l + r * r;
    }
  }

  /** All cells 0 in silence. */
  result(): StereoField {
    const densest = this.#energy.reduce((most, cell) => Math.max(most, cell), 0);
    const cells = Float32Array.from(this.#energy, (cell) => (densest > 0 ? cell / densest : 0));
    return { size: fieldSize, cells };
  }
}
