/** Frames of a block, of a cell, and of the window of three blocks; see `peaks.ts` in the folder above. */
const blockFrames: u32 = 64;
const cellFrames: u32 = 16;
const blockCells: usize = 4;
const cellsEitherWay: usize = 2;

/** Taps of a phase and of its middle, and where they begin ahead of the frame just before the sought point. */
const taps: u32 = 64;
const before: usize = 31;
const middles: u32 = 8;
const middleBefore: usize = 3;

/** Four sums side by side, as in the plain form. */
function dot(weights: usize, values: usize, count: u32): f64 {
  let first = f64x2.splat(0);
  let second = f64x2.splat(0);
  for (const end = values + ((<usize>count) << 2); values < end; values += 16, weights += 32) {
    const four = v128.load(values);
    first = f64x2.add(first, f64x2.mul(v128.load(weights), v128.promote_low<f32>(four)));
    const high = v128.promote_low<f32>(v128.shuffle<f64>(four, four, 1, 1));
    second = f64x2.add(second, f64x2.mul(v128.load(weights, 16), high));
  }
  return (
    f64x2.extract_lane(first, 0) +
    f64x2.extract_lane(first, 1) +
    (f64x2.extract_lane(second, 0) + f64x2.extract_lane(second, 1))
  );
}

/** Largest sample of a cell, and its largest second difference; both go into its place. */
function lookAtSamples(window: usize, cell: usize, peaks: usize, bends: usize): f64 {
  let at = window + ((cell * cellFrames) << 2);
  let peak = f32x4.splat(0);
  let bend = f64x2.splat(0);
  const two = f64x2.splat(2);
  for (const end = at + ((<usize>cellFrames) << 2); at < end; at += 16) {
    const now = v128.load(at);
    const last = v128.load(at - 4);
    const earlier = v128.load(at - 8);
    peak = f32x4.max(peak, f32x4.abs(now));
    const low = f64x2.add(
      f64x2.sub(v128.promote_low<f32>(earlier), f64x2.mul(two, v128.promote_low<f32>(last))),
      v128.promote_low<f32>(now),
    );
    const high = f64x2.add(f64x2.sub(upper(earlier), f64x2.mul(two, upper(last))), upper(now));
    bend = f64x2.max(bend, f64x2.max(f64x2.abs(low), f64x2.abs(high)));
  }
  const largest = <f64>(
    max(
      max(f32x4.extract_lane(peak, 0), f32x4.extract_lane(peak, 1)),
      max(f32x4.extract_lane(peak, 2), f32x4.extract_lane(peak, 3)),
    )
  );
  store<f64>(peaks + (cell << 3), largest);
  store<f64>(bends + (cell << 3), max(f64x2.extract_lane(bend, 0), f64x2.extract_lane(bend, 1)));
  return largest;
}

/** The two upper floats of four, as doubles. */
function upper(four: v128): v128 {
  return v128.promote_low<f32>(v128.shuffle<f64>(four, four, 1, 1));
}

/**
 * Takes frames into the third block of the window, and each time that it is full looks between those of the second.
 *
 * @param filled    frames of the third block that are in; @returns those that are in then
 * @param state     sample peak, true peak, then for 12 cells their peaks, then their bends
 * @param bounds    nearGain, farGain, lineGain, bendGain, rounding, then five bendGains
 * @param phases    for each phase its 64 taps; @param middle  for each its 8 and what the others may add
 */
export function peakRun(
  input: usize,
  frames: u32,
  filled: u32,
  window: usize,
  state: usize,
  bounds: usize,
  phases: usize,
  middle: usize,
  phaseCount: u32,
): u32 {
  while (frames > 0) {
    const run = min(frames, blockFrames - filled);
    memory.copy(window + ((2 * blockFrames + filled) << 2), input, (<usize>run) << 2);
    input += (<usize>run) << 2;
    frames -= run;
    filled += run;
    if (filled < blockFrames) break;
    lookAtBlock(window, state, bounds, phases, middle, phaseCount);
    filled = 0;
  }
  return filled;
}

function lookAtBlock(
  window: usize,
  state: usize,
  bounds: usize,
  phases: usize,
  middle: usize,
  phaseCount: u32,
): void {
  const peaks = state + 16;
  const bends = peaks + ((3 * blockCells) << 3);
  for (let cell: usize = 2 * blockCells; cell < 3 * blockCells; cell++) {
    const peak = lookAtSamples(window, cell, peaks, bends);
    if (peak > load<f64>(state)) store<f64>(state, peak);
    if (peak > load<f64>(state, 8)) store<f64>(state, peak, 8);
  }
  if (phaseCount > 0) {
    for (let cell: usize = blockCells; cell < 2 * blockCells; cell++) {
      lookBetween(window, cell, state, bounds, phases, middle, phaseCount);
    }
  }
  memory.copy(window, window + (blockFrames << 2), (2 * blockFrames) << 2);
  memory.copy(peaks, peaks + (blockCells << 3), (2 * blockCells) << 3);
  memory.copy(bends, bends + (blockCells << 3), (2 * blockCells) << 3);
}

function lookBetween(
  window: usize,
  cell: usize,
  state: usize,
  bounds: usize,
  phases: usize,
  middle: usize,
  phaseCount: u32,
): void {
  const peaks = state + 16;
  const bends = peaks + ((3 * blockCells) << 3);
  const nearGain = load<f64>(bounds);
  const lineGain = load<f64>(bounds, 16);
  const rounding = load<f64>(bounds, 32);
  let tapPeak: f64 = 0;
  let largestBend: f64 = 0;
  let bendSum: f64 = 0;
  for (let i: usize = 0; i < 2 * cellsEitherWay + 1; i++) {
    const near = (cell - cellsEitherWay + i) << 3;
    const bend = load<f64>(bends + near);
    tapPeak = max(tapPeak, load<f64>(peaks + near));
    largestBend = max(largestBend, bend);
    bendSum += load<f64>(bounds + (i << 3), 40) * bend;
  }
  const farBound = load<f64>(bounds, 8) * tapPeak;
  const bendBound = min(load<f64>(bounds, 24) * largestBend, bendSum);
  let at = window + ((cell * cellFrames) << 2);
  const end = at + (cellFrames << 2);
  let level = load<f64>(state, 8) / rounding;
  let harmless = max((level - farBound) / nearGain, (level - bendBound) / lineGain);
  if (load<f64>(peaks + (cell << 3)) <= harmless && <f64>abs(load<f32>(end)) <= harmless) return;
  for (; at < end; at += 4) {
    if (<f64>abs(load<f32>(at)) <= harmless && <f64>abs(load<f32>(at, 4)) <= harmless) continue;
    lookBehind(at, tapPeak, state, rounding, phases, middle, phaseCount);
    level = load<f64>(state, 8) / rounding;
    harmless = max((level - farBound) / nearGain, (level - bendBound) / lineGain);
  }
}

/** Computes the points between a frame and the next, as far as the middle taps do not rule them out. */
function lookBehind(
  at: usize,
  tapPeak: f64,
  state: usize,
  rounding: f64,
  phases: usize,
  middle: usize,
  phaseCount: u32,
): void {
  for (
    let p: u32 = 0;
    p < phaseCount;
    p++, phases += (<usize>taps) << 3, middle += (<usize>middles + 1) << 3
  ) {
    const near = Math.abs(dot(middle, at - (middleBefore << 2), middles));
    const outer = load<f64>(middle + ((<usize>middles) << 3));
    if ((near + outer * tapPeak) * rounding <= load<f64>(state, 8)) continue;
    const value = Math.abs(dot(phases, at - (before << 2), taps));
    if (value > load<f64>(state, 8)) store<f64>(state, value, 8);
  }
}
