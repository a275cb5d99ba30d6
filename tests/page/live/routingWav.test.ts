import { expect, test } from "vitest";
import { routingWav } from "../../../src/page/live/routingWav.js";
import { encodeWav } from "../../../src/sound/audio/encodeWav.js";
import { noise } from "../../signals.js";

const rateHz = 44_100;
const [a, b] = [noise({ seed: 1, frames: 999, rms: 0.1 }), noise({ seed: 2, frames: 999, rms: 0.1 })];
const left = { left: 1, right: 0 };
const right = { left: 0, right: 1 };

/** Independent encoder: `wav-encoder`, by which `encodeWav` works. */
test("left and right with a gain are what another encoder writes", async () => {
  const blob = routingWav([a, b], [left, right], { rateHz, frames: 900, gain: 0.5 });
  const channels = [a, b].map((samples) => samples.slice(0, 900).map((x) => 0.5 * x));
  const written = new Uint8Array(await blob.arrayBuffer());
  const expected = encodeWav({ rateHz, channels }, 24);
  const sound = (bytes: Uint8Array) => bytes.slice(bytes.length - 900 * 6);
  expect(written).toHaveLength(44 + 900 * 6);
  expect(sound(written)).toEqual(sound(expected));
});

test("inputs of a mixer are summed with their gains", async () => {
  const gains = [left, right, { left: 0.25, right: -0.5 }];
  const blob = routingWav([a, b, a], gains, { rateHz, frames: 999, gain: 1 });
  const view = new DataView(await blob.arrayBuffer());
  const at = (n: number, side: number) =>
    ((view.getInt8(44 + 6 * n + 3 * side + 2) << 16) | view.getUint16(44 + 6 * n + 3 * side, true)) / 2 ** 23;
  for (const n of [0, 17, 998]) {
    expect(Math.abs(at(n, 0) - 1.25 * a[n])).toBeLessThan(2 ** -23);
    expect(Math.abs(at(n, 1) - (b[n] - 0.5 * a[n]))).toBeLessThan(2 ** -23);
  }
});
