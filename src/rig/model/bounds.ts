/** Bounds of what a rig says beside the settings of its models. Schema and sweeps read them here. */
export const pedalBounds = {
  latencyMs: { min: 0, max: 100 },
  levelDb: { min: -60, max: 24 },
  dryLeakDb: { min: -80, max: 0 },
} as const;

/** Of a mixer's inputs. */
export const mixerBounds = {
  gainDb: { min: -60, max: 12 },
  pan: { min: -1, max: 1 },
} as const;

/** No comparison renders more plans that mix places than this. */
export const mostMixedPlans = 50;

/** Characters in the label of a wiring that is drawn by hand. */
export const longestLabel = 60;
/** Outputs of a splitter, inputs of a summing box or a mixer. */
export const mostJacks = 64;
