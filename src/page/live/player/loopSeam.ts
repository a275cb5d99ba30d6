/** Length of the fade that is baked into a loop's end. */
export const seamSeconds = 0.01;

/**
 * The stretch of a channel that a loop plays, with its end faded over into what stands ahead of its beginning: from the
 * last frame back to the first there is then no step. Linear, since both are the same sound a little apart in time.
 *
 * @param from        first frame of the loop; silence is taken to stand ahead of the channel
 * @param to          frame behind the last
 * @param seamFrames  length of the fade, cut to the loop's own length
 */
export function loopSamples(
  channel: Float32Array,
  from: number,
  to: number,
  seamFrames: number,
): Float32Array<ArrayBuffer> {
  const loop = new Float32Array(channel.subarray(from, to));
  const fade = Math.min(seamFrames, loop.length);
  const start = loop.length - fade;
  for (let n = 0; n < fade; n++) {
    const share = (n + 1) / (fade + 1);
    const before = from - fade + n;
    const lead = before >= 0 ? channel[before] : 0;
    loop[start + n] = (1 - share) * loop[start + n] + share * lead;
  }
  return loop;
}
