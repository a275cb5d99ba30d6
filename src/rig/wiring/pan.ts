/**
 * Equal-power pan: cos and sin of (pan + 1) * 45 degrees, so that left^2 + right^2 = 1: at the centre both are
 * -3.01 dB, hard over 0 dB and silence.
 * @param pan -1 left, 0 centre, 1 right
 * @returns gains of the left and right bus, 0..1
 * Source: W3C Web Audio API, StereoPannerNode, mono input.
 */
export function panGains(pan: number): readonly [left: number, right: number] {
  if (pan <= -1) return [1, 0];
  if (pan >= 1) return [0, 1];
  if (pan === 0) return [Math.SQRT1_2, Math.SQRT1_2];
  const angle = ((pan + 1) * Math.PI) / 4;
  return [Math.cos(angle), Math.sin(angle)];
}
