import { expect, test } from "vitest";
import { dbToGain } from "../../src/sound/dsp/units.js";
import { sine } from "../signals.js";
import { expectWithin } from "../within.js";
import { describeInChromium } from "./chromium.js";
import { type Comparison, comparison, readBytes, samplesOf24BitWav } from "./comparison.js";
import { recordedSeconds, recordInstead } from "./recorder.js";
import { rigYaml } from "./rig.js";

const rateHz = 48_000;
const at = (seconds: number): number => Math.round(seconds * rateHz);
/** The player sets changes this far ahead: what is started at 0 sounds from here on. */
const ahead = at(0.02);
const volume = dbToGain(-12);

/** 997 Hz at -10 dBFS, swelling over half a second so that its start is no step, exact in 24 bits. */
function sineTake() {
  const tone = sine({ frequencyHz: 997, rateHz, lengthSeconds: 5, peakDbfs: -10 });
  const swell = at(0.5);
  const samples = tone.map((x, n) => {
    const gain = n < swell ? 0.5 - 0.5 * Math.cos((Math.PI * n) / swell) : 1;
    return Math.round(x * gain * 2 ** 23) / 2 ** 23;
  });
  return { channels: [samples], rateHz, bits: 24 } as const;
}

/** What a person does and when (a whole number of render quanta), as a script with `player` and `bench` in scope. */
type Act = readonly [seconds: number, script: string];
type Sides = readonly [left: Float32Array, right: Float32Array];

function largest(samples: Float32Array, from = 0, to = samples.length): number {
  let most = 0;
  for (let n = from; n < to; n++) most = Math.max(most, Math.abs(samples[n]));
  return most;
}

function largestStep(samples: Float32Array, from: number, to: number): number {
  let most = 0;
  for (let n = from; n < to; n++) most = Math.max(most, Math.abs(samples[n] - samples[n - 1]));
  return most;
}

const difference = (a: Float32Array, b: Float32Array): Float32Array => a.map((x, n) => x - b[n]);

describeInChromium("what comes out of the page", (open) => {
  const made = comparison(rigYaml, sineTake());

  /** Opens the page, does `acts` once the clock says so, and gives the whole output. Plays from 0 unless told otherwise. */
  async function recorded(acts: readonly Act[], first = "player.play()"): Promise<Sides> {
    const { page, complaints } = await open((await made).page, {}, recordInstead);
    await page.waitForFunction(() => window.splitsum?.progress === null);
    const run = (script: string) => `{ const bench = window.splitsum, { player } = bench; ${script} }`;
    await page.evaluate(run(first));
    for (const [seconds, script] of acts) {
      await page.evaluate(`window.recorder.at(${seconds}, () => ${run(script)})`);
    }
    const output = await page.evaluate(async () => {
      const sides = await window.recorder!.run();
      return sides.map((side) => Array.from(side));
    });
    expect(complaints).toEqual([]);
    return [Float32Array.from(output[0]), Float32Array.from(output[1])];
  }

  const playing = (id: string) => `player.choose("${id}"); player.play()`;

  /** A choice by itself: the file of the command line, on the page's clock and at the page's volume. */
  async function fileOf(name: string, gain = volume, from?: Comparison): Promise<Sides> {
    const channels = samplesOf24BitWav(readBytes((from ?? (await made)).file(name)));
    const [left, right = left] = channels.map((samples) => {
      const output = new Float32Array(recordedSeconds * rateHz);
      for (let n = ahead; n < output.length; n++) output[n] = gain * (samples[n - ahead] ?? 0);
      return output;
    });
    return [left, right];
  }

  test("nothing is opened before a gesture, and the volume is moderate", async () => {
    const { page } = await open((await made).page, {}, recordInstead);
    await page.waitForFunction(() => window.splitsum?.progress === null);
    expect(
      await page.evaluate(() => [window.recorder === undefined, window.splitsum!.player.volumeDb]),
    ).toEqual([true, -12]);
  });

  /** -120 dBFS, 1e-6, is asked for: the rounding of the file, and of the gains on the way. */
  test.each(["series-mono", "unit-first", "parallel", "parallel-after", "stereo-unit", "dry"])(
    "%s, matched, is the file of the command line",
    async (id) => {
      const played = await recorded([], playing(id));
      const file = await fileOf(`${id}.wav`);
      for (const side of [0, 1]) {
        expect(largest(difference(played[side], file[side]))).toBeLessThan(1e-6);
        expect(largest(file[side])).toBeGreaterThan(0.01);
      }
    },
  );

  test("folded to mono it is the fold-down of the command line on both sides", async () => {
    const played = await recorded([], `player.setFolded(true); ${playing("stereo-unit")}`);
    const [file] = await fileOf("stereo-unit.mono.wav");
    for (const side of played) expect(largest(difference(side, file))).toBeLessThan(1e-6);
  });

  test("as wired, one gain for all brings the highest peak to -1 dBTP at most", async () => {
    const { report } = await made;
    const peaks = report.routings.map(({ measures }) => measures!.truePeakDbtp!);
    const oneGainDb = Math.min(0, -1 - Math.max(...peaks, report.take.measures.truePeakDbtp!));
    const { matchGainDb } = report.routings.find(({ id }) => id === "summed")!;
    const played = await recorded([], `player.setMatched(false); ${playing("summed")}`);
    const file = await fileOf("summed.wav", volume * dbToGain(oneGainDb - matchGainDb!));
    expect(largest(difference(played[0], file[0]))).toBeLessThan(1e-6);
  });

  /**
   * Of y = (1 - s) a + s b with s rising from 0 to 1 over F frames, a step is at most the larger of the two sounds' own
   * steps and |a - b| / F more: closed form. A switch without a fade would be many times over that.
   */
  test("a switch during a sine makes no step larger than the crossfade does", async () => {
    const [a, b] = [await recorded([], playing("dry")), await recorded([], playing("one-side"))];
    const switched = await recorded([[2, 'player.choose("one-side")']], playing("dry"));
    const fade = at(0.02);
    const from = at(2);
    const to = from + 3 * fade;
    for (const side of [0, 1]) {
      const apart = largest(difference(a[side], b[side]), from, to);
      const own = Math.max(largestStep(a[side], from, to), largestStep(b[side], from, to));
      expect(largestStep(switched[side], from, to)).toBeLessThan(own + apart / fade + 1e-7);
      expect(largest(difference(switched[side], a[side]), 0, from)).toBeLessThan(1e-7);
      expect(largest(difference(switched[side], b[side]), to)).toBeLessThan(1e-7);
      const hard = largest(
        a[side].map((x, n) => b[side][n + 1] - x),
        from,
        to,
      );
      expect(hard).toBeGreaterThan(2 * (own + apart / fade));
    }
  });

  test("mashing the keys stays within one crossfade's step and ends on the last", async () => {
    const ids = ["parallel", "dry", "one-side", "summed", "dry", "stereo-unit"];
    const acts = ids.map((id, n): Act => [2 + 0.008 * n, `player.choose("${id}")`]);
    const [left] = await recorded(acts, playing("dry"));
    const [last] = await recorded([], playing("stereo-unit"));
    const files = await Promise.all(ids.map((id) => fileOf(`${id}.wav`)));
    const own = Math.max(...files.map(([side]) => largestStep(side, at(1), at(3))));
    const loudest = Math.max(...files.map(([side]) => largest(side)));
    expect(largestStep(left, at(1), at(3))).toBeLessThan(own + (2 * loudest) / at(0.02));
    expect(largest(difference(left, last), at(2.5))).toBeLessThan(1e-7);
  });

  test("a mixer move is heard within 50 ms, without a step, and ends where a render does", async () => {
    const yaml = rigYaml.replace("returnDb: -8", "returnDb: 0, returnPan: -1");
    const turned = await comparison(yaml, sineTake());
    const gainDb = ({ report }: Comparison) =>
      report.routings.find(({ id }) => id === "parallel")!.matchGainDb!;
    const file = await fileOf("parallel.wav", volume * dbToGain(gainDb(await made) - gainDb(turned)), turned);
    const still = await recorded([], playing("parallel"));
    const moved = await recorded(
      [[2, "bench.setMixer({ returnDb: 0, returnPan: -1 })"]],
      playing("parallel"),
    );
    for (const side of [0, 1]) {
      const change = difference(moved[side], still[side]);
      const full = largest(change, at(2.2), at(2.5));
      expect(full).toBeGreaterThan(0.005);
      expect(largest(change, 0, at(2))).toBeLessThan(1e-7);
      expect(largest(change, at(2.03), at(2.05))).toBeGreaterThan(0.5 * full);
      const own = largestStep(still[side], at(1.5), at(1.9)) + largestStep(moved[side], at(2.2), at(2.5));
      expect(largestStep(moved[side], at(2), at(2.1))).toBeLessThan(own);
      expect(largest(difference(moved[side], file[side]), at(2.2))).toBeLessThan(1e-6);
    }
  });

  test("a jump, a pause and going on leave no click, and the place is kept", async () => {
    const [left] = await recorded(
      [
        [1, "player.seek(3.1234)"],
        [1.6, "player.pause()"],
        [2, "player.play()"],
      ],
      playing("dry"),
    );
    const [dry] = await fileOf("dry.wav");
    const own = largestStep(dry, at(0.6), at(3));
    expect(largestStep(left, 1, left.length)).toBeLessThan(own + (2 * largest(dry)) / at(0.01));
    expect(largest(left, at(1.64), at(2))).toBe(0);
    // From the pause on: 0.6 s behind the jump, fades aside.
    const resumedAt = at(2) + ahead;
    const place = at(3.1234) + at(0.6) + ahead;
    const rest = left.subarray(resumedAt + at(0.02));
    const expected = dry.subarray(place + at(0.02), place + at(0.02) + 4800);
    const off = largest(Float32Array.from({ length: 4800 }, (_, n) => rest[n] - expected[n]));
    expect(off).toBeLessThan(1e-6);
  });

  test("a loop comes round at its place without a click", async () => {
    const [left] = await recorded([], `player.setLoop({ on: true, from: 1, to: 1.7501 }); ${playing("dry")}`);
    const [dry] = await fileOf("dry.wav");
    const own = largestStep(dry, at(0.6), at(3));
    expect(largestStep(left, ahead + at(0.02), left.length)).toBeLessThan(
      own + (2 * largest(dry)) / at(0.01),
    );
    // Round after round the same, from the loop's beginning on.
    const turn = at(1.7501) - at(1);
    for (let round = 1; round < 4; round++) {
      const again = left.subarray(ahead + round * turn, ahead + round * turn + at(0.7));
      const first = dry.subarray(ahead + at(1), ahead + at(1.7));
      expect(largest(again.map((x, n) => x - first[n]))).toBeLessThan(1e-6);
    }
  });

  /** Out, pause, in: 50, 300 and 50 ms, to the frame, whatever is switched to. */
  test("a blind switch takes the same time and the same fades onto another sound and onto the same", async () => {
    const edges = async (id: string) => {
      const [left] = await recorded([[2, `player.playBlind("${id}")`]], playing("dry"));
      let silentFrom = at(2);
      while (largest(left, silentFrom, silentFrom + 200) > 0) silentFrom++;
      let silentTo = silentFrom + 200;
      while (left[silentTo] === 0) silentTo++;
      return { silentFrom, silentTo, left };
    };
    const same = await edges("dry");
    expectWithin(same.silentFrom, at(2 + 0.02 + 0.05), 3, "frames");
    expectWithin(same.silentTo, at(2 + 0.02 + 0.35), 3, "frames");
    const [dry] = await fileOf("dry.wav");
    const fadeIn = largest(difference(same.left, dry), at(2.48));
    expect(fadeIn).toBeLessThan(1e-6);
    const other = await edges("one-side");
    expectWithin(other.silentFrom, same.silentFrom, 3, "frames");
    expectWithin(other.silentTo, same.silentTo, 3, "frames");
    const [oneSide] = await fileOf("one-side.wav");
    expect(largest(difference(other.left, oneSide), at(2.48))).toBeLessThan(1e-6);
  });

  test("a blind switch tells nothing by what the player shows, and is always matched", async () => {
    const shown = "window.shown = JSON.stringify([player.chosen, player.matched])";
    const script = `player.setMatched(false); ${playing("dry")}`;
    const [left] = await recorded(
      [
        [1, 'player.playBlind("summed")'],
        [2, shown],
      ],
      script,
    );
    const [summed] = await fileOf("summed.wav");
    expect(largest(difference(left, summed), at(1.6))).toBeLessThan(1e-6);
  });
});
