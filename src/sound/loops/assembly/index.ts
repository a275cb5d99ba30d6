/** The SIMD twins of the inner loops, in AssemblyScript; each is described beside its plain twin, in the folder above. */
export { bend, double, halve } from "./bends";
export { disperse, disperseTwo } from "./chains";
export { diffuse } from "./diffusers";
export { echoes } from "./echoes";
export { fourier, unravel } from "./fourier";
export { hall } from "./hall";
export { mix } from "./mixes";
export { pack24 } from "./packing";
export { peakRun } from "./peaks";
export { plateTank, ringTaps } from "./plate";
export { rateDown, rateUp } from "./rates";
export { cubicReads, recur } from "./reads";
export { addPairEnergies, windowOne, windowPair } from "./spectra";
export { fir } from "./taps";
