/**
 * A usual coil of the common kinds of magnetic pickup, for a rig that names the kind and not the values. Middling figures
 * within what H. E. W. Lemme ("The Secrets of Electric Guitar Pickups") states of most, from memory: 1 to 10 H, 80 to
 * 200 pF, and with the 500 to 1000 pF of a usual cable a resonance at 2 to 5 kHz, lower with two coils than with one. A
 * single pickup may be a third off either way.
 */
export const pickupKinds = {
  "single-coil": { outputOhms: 6000, henries: 2.5, picofarads: 110 },
  humbucking: { outputOhms: 8000, henries: 4.5, picofarads: 130 },
} as const;

export type PickupKind = keyof typeof pickupKinds;
export const pickupKindNames = Object.keys(pickupKinds) as PickupKind[];
