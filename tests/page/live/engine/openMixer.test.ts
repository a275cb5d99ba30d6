import { expect, test } from "vitest";
import { mixerGains, openMixerOf, withMixerAtRest } from "../../../../src/page/live/engine/openMixer.js";
import { renderSound } from "../../../../src/page/live/engine/soundJob.js";
import type { MixerSettings } from "../../../../src/rig/model/rig.js";
import { routingsOf } from "../../../../src/rig/routings/routingsOf.js";
import type { Box, Cable, Wiring } from "../../../../src/rig/wiring/wiring.js";
import { dbToGain } from "../../../../src/sound/dsp/units.js";
import { instrument, pedal, rigOf, soldBox } from "../../../rigs.js";
import { noise } from "../../../signals.js";

const rateHz = 48_000;
const chain = [
  pedal("Weir", "tremolo", "mono-to-stereo", {}, { latencyMs: 0.7 }),
  pedal("Drift", "delay", "mono", { delayMs: 31, mix: 0.4 }),
];
const mixer = (change: Partial<MixerSettings>) => ({
  mixer: { dryDb: 0, returnDb: -6, returnPan: 0, ...change },
});
const wiringsOf = (change: Partial<MixerSettings>, rest: Parameters<typeof rigOf>[1] = {}) =>
  routingsOf(rigOf(chain, { ...rest, ...mixer(change) })).flatMap(({ id, wiring }) =>
    wiring ? [{ id, wiring }] : [],
  );
const openIds = (wirings: ReturnType<typeof wiringsOf>) =>
  wirings.filter(({ wiring }) => openMixerOf(wiring)).map(({ id }) => id);

test("the mixers of both parallel routings are open where they play straight into the destination", () => {
  expect(openIds(wiringsOf({}))).toEqual(["parallel", "parallel-after"]);
  const behind = [...chain, pedal("Cabinet", "speaker", "stereo")];
  const routings = routingsOf(rigOf(behind, mixer({})));
  const open = routings.filter(({ wiring }) => wiring && openMixerOf(wiring)).map(({ id }) => id);
  expect(open).not.toContain("parallel-after");
});

/** Equal-power pan, W3C StereoPannerNode: cos and sin of (pan + 1) 45 degrees; gains 10^(dB / 20). */
test("gains of the inputs", () => {
  const { wiring } = wiringsOf({ dryDb: -3, returnDb: -9, returnPan: 0.5 }).find(
    ({ id }) => id === "parallel",
  )!;
  const [left, right, back] = mixerGains(wiring, openMixerOf(wiring)!);
  expect(left).toEqual({ left: dbToGain(-3), right: 0 });
  expect(right).toEqual({ left: 0, right: dbToGain(-3) });
  expect(back.left).toBeCloseTo(dbToGain(-9) * Math.cos((67.5 * Math.PI) / 180), 12);
  expect(back.right).toBeCloseTo(dbToGain(-9) * Math.sin((67.5 * Math.PI) / 180), 12);
});

/** Closed form: a divider of 150 ohms into 600, 600 / 750. */
test("what the destination takes of the mixer is in its gains", () => {
  const loaded = wiringsOf(
    {},
    {
      instrument: instrument({ outputOhms: 600, henries: 0 }),
      destination: { inputOhms: 600, maxInputDbu: null },
      boxes: {
        splitter: [soldBox()],
        "summing-box": [soldBox()],
        mixer: [soldBox({ outputOhms: 150 })],
      },
    },
  ).find(({ id }) => id === "parallel")!.wiring;
  const [left] = mixerGains(loaded, openMixerOf(loaded)!);
  expect(left.left).toBeCloseTo(600 / 750, 12);
});

test("wirings that differ in mixer settings alone are one wiring at rest", () => {
  const rest = (change: Partial<MixerSettings>) =>
    wiringsOf(change).map(({ wiring }) => {
      const open = openMixerOf(wiring);
      return open ? withMixerAtRest(wiring, open) : wiring;
    });
  expect(rest({ returnDb: -20, returnPan: -1, dryDb: 2 })).toEqual(rest({}));
});

/** A mixer is a sum: its inputs times their gains are the render, whatever engine does the sum. */
test.each(["stereo-desk", "mono-desk"] as const)(
  "inputs times gains are the render, into a %s",
  (playsInto) => {
    const settings = { returnDb: -7, returnPan: 0.3, dryDb: -1 };
    const wirings = wiringsOf(settings, { playsInto });
    const open = wirings.filter(({ wiring }) => openMixerOf(wiring));
    expect(open.map(({ id }) => id)).toContain("parallel");
    const take = noise({ seed: 3, frames: 6000, rms: 0.1 });
    const common = { take, rateHz, clips: new Map(), leastFrames: 0, levels: new Map() } as const;
    const tail = { dropDb: 60, capSeconds: 0.2, silenceSeconds: 0.05 };
    for (const { id, wiring } of open) {
      const inputs = renderSound({ kind: "sound", wirings: [{ id, wiring }], tail, ...common }, () => {});
      // The same wiring with a plain box behind the mixer, so that no one can turn it: its render is left and right.
      const closed = withBoxAtEnd(wiring);
      expect(openMixerOf(closed)).toBeNull();
      const sides = renderSound(
        { kind: "sound", wirings: [{ id, wiring: closed }], tail, ...common },
        () => {},
      );
      expect(sides.frames).toBe(inputs.frames);
      const gains = mixerGains(wiring, openMixerOf(wiring)!);
      const [left, right = left] = sides.tracks[0].channels;
      for (let n = 0; n < sides.frames; n += 7) {
        const sum = (side: "left" | "right") =>
          inputs.tracks[0].channels.reduce((total, samples, k) => total + gains[k][side] * samples[n], 0);
        expect(Math.abs(sum("left") - left[n])).toBeLessThan(1e-6);
        expect(Math.abs(sum("right") - right[n])).toBeLessThan(1e-6);
      }
    }
  },
);

/** The same sound by way of a splitter of one output ahead of each input of the destination. */
function withBoxAtEnd({ boxes, cables }: Wiring): Wiring {
  const isLast = ({ to }: Cable) => to.box === "destination";
  const last = cables.filter(isLast);
  const box = (n: number): Box => ({
    kind: "splitter",
    id: `end ${n}`,
    label: "",
    outputs: 1,
    buffered: true,
  });
  return {
    boxes: [...boxes, ...last.map((_, n) => box(n))],
    cables: [
      ...cables.filter((cable) => !isLast(cable)),
      ...last.flatMap(({ from, to }, n) => [
        { from, to: { box: `end ${n}`, jack: "in" } },
        { from: { box: `end ${n}`, jack: "out 1" }, to },
      ]),
    ],
  };
}
