/**
 * The channels of a sound file, by the browser's own decoder, at the rate given: of another rate than the file's, the
 * browser converts.
 * @throws DOMException when it cannot read the file
 */
export async function decodeAt(
  bytes: Uint8Array<ArrayBuffer>,
  rateHz: number,
): Promise<Float32Array<ArrayBuffer>[]> {
  const context = new OfflineAudioContext(1, 1, rateHz);
  // The decoder takes the buffer for itself, so it gets a copy.
  const sound = await context.decodeAudioData(bytes.slice().buffer);
  return Array.from({ length: sound.numberOfChannels }, (_, n) => sound.getChannelData(n));
}
