/** A piece of sound held whole: `channels[channel][frame]`, full scale 1, all channels of one length. */
export interface Clip {
  readonly rateHz: number;
  readonly channels: readonly Float32Array[];
}

/** Length of a clip in frames; 0 when it has no channels. */
export const framesOf = (clip: Clip): number => clip.channels[0]?.length ?? 0;
