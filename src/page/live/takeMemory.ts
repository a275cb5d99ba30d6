/** Memory that one set of renders may take in a page; while sound is exchanged there are two. */
const mostRenderBytes = 2 ** 30;

/** Channels beyond left and right of each choice: a mixer's inputs are kept by themselves. */
const extraChannels = 4;

/** The longest take for which a page has memory, in frames, when each render has a tail as long as it may be. */
export function mostTakeFrames(choices: number, rateHz: number, tailSeconds: number): number {
  const channels = 2 * choices + extraChannels;
  return Math.max(0, Math.floor(mostRenderBytes / (4 * channels) - tailSeconds * rateHz));
}
