/** The SIMD twins of the inner loops, in AssemblyScript; each is described beside its plain twin, in the folder above. */
export { fourier, unravel } from "./fourier";
export { pairEnergies, windowOne, windowPair } from "./spectra";
