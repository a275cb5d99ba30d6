/** Least distances in a drawing, px. */
export const spacing = {
  /** Around it all. */
  margin: 12,
  /** Between boxes, boxes and passing cables, passing cables, one above the other. */
  boxes: 26,
  boxAndCable: 16,
  cables: 12,
  /** Between the boxes of two layers, and an upright piece of a cable and the next box. */
  layers: 32,
  boxAndTrack: 12,
  tracks: 10,
  /** Level pieces of two cables that are nearer than this look like one. */
  levels: 8,
} as const;
