/** Median of a list. */
export const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

/**
 * Runs contestants in turn, round after round, so that what disturbs the machine disturbs all of them alike. The first
 * round warms up and does not count.
 * @param contestants functions by name; may be asynchronous
 * @returns median seconds by name
 */
export async function inTurn(contestants, rounds = 5) {
  const seconds = Object.fromEntries(Object.keys(contestants).map((name) => [name, []]));
  for (let round = 0; round <= rounds; round++) {
    for (const [name, run] of Object.entries(contestants)) {
      const start = performance.now();
      await run();
      if (round > 0) seconds[name].push((performance.now() - start) / 1000);
    }
  }
  return Object.fromEntries(Object.entries(seconds).map(([name, list]) => [name, median(list)]));
}

/** A plucked-string-like test take: decaying tones at random pitches, seeded. */
export function pluckedTake(lengthSeconds, rateHz) {
  const frames = Math.round(lengthSeconds * rateHz);
  const samples = new Float32Array(new SharedArrayBuffer(4 * frames));
  let seed = 12345;
  const random = () => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return seed / 2 ** 32;
  };
  for (let start = 0; start < frames; start += rateHz / 2) {
    const radians = (2 * Math.PI * 80 * 2 ** (Math.floor(random() * 24) / 12)) / rateHz;
    const end = Math.min(frames, start + rateHz);
    for (let n = start; n < end; n++) {
      const t = n - start;
      samples[n] +=
        0.25 * Math.exp((-4 * t) / rateHz) * (Math.sin(radians * t) + 0.4 * Math.sin(2 * radians * t));
    }
  }
  return samples;
}

export const ratio = (value) => `${value.toFixed(value < 10 ? 1 : 0)} x`;
