/**
 * Energy of the response of a first-order or Schroeder all-pass (g + c z^-D) / (1 + g c z^-D) whose delay loses by the
 * factor c: g^2 + (1 - g^2)^2 c^2 / (1 - g^2 c^2). Without loss 1.
 * Source: the response is g, then (1 - g^2) c (-g c)^(k-1) every D frames; Schroeder 1962 for c = 1.
 */
export const allPassEnergy = (g: number, c: number): number =>
  g ** 2 + ((1 - g ** 2) ** 2 * c ** 2) / (1 - (g * c) ** 2);
