import { twoFloats, twoUnlessSilent, unlessSilent } from "./steps";

/**
 * One Schroeder section, in place. The ring is as long as its delay, so that nothing read in a stretch up to its end was
 * written in it. @returns where the ring stands then
 */
function section(ring: usize, length: u32, at: u32, g: f64, signal: usize, frames: u32): u32 {
  const share = f64x2.splat(g);
  while (frames > 0) {
    const run = min(frames, length - at);
    let held = ring + ((<usize>at) << 2);
    const pairs = signal + ((<usize>run >> 1) << 4);
    for (; signal < pairs; signal += 16, held += 8) {
      const delayed = twoFloats(held);
      const v = twoUnlessSilent(f64x2.sub(v128.load(signal), f64x2.mul(share, delayed)));
      v128.store64_lane(held, v128.demote_zero<f64>(v), 0);
      v128.store(signal, f64x2.add(delayed, f64x2.mul(share, v)));
    }
    if (run & 1) {
      const delayed = <f64>load<f32>(held);
      const v = unlessSilent(load<f64>(signal) - g * delayed);
      store<f32>(held, <f32>v);
      store<f64>(signal, delayed + g * v);
      signal += 8;
    }
    frames -= run;
    at += run;
    if (at === length) at = 0;
  }
  return at;
}

/** @param sections  for each its ring's place, its length, and where it stands */
export function diffuse(sections: usize, coefficients: usize, count: u32, signal: usize, frames: u32): void {
  for (let k: u32 = 0; k < count; k++, sections += 12, coefficients += 8) {
    const at = section(
      <usize>load<u32>(sections),
      load<u32>(sections, 4),
      load<u32>(sections, 8),
      load<f64>(coefficients),
      signal,
      frames,
    );
    store<u32>(sections, at, 8);
  }
}
