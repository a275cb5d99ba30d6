/** What a source of some resistance keeps of its level under a load: load / (source + load). */
export const dividerGain = (sourceOhms: number, loadOhms: number): number =>
  loadOhms / (sourceOhms + loadOhms);

/** Resistances side by side: a b / (a + b), pair by pair. */
export const inParallel = (ohms: readonly number[]): number =>
  ohms.reduce((together, each) => (together * each) / (together + each));
