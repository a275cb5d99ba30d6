/** Where the energy of a sound is between its sides. */
export interface StereoField {
  readonly size: number;
  /** Share of the energy in each cell, 0..1 of the densest. */
  readonly cells: Float32Array;
}
