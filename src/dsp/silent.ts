/**
 * Below this a value in a feedback path counts as zero: -600 dB. Without it a decaying tail ends in denormal numbers,
 * with which processors compute many times slower, and which rounding can keep alive for ever.
 */
export const silent = 1e-30;
