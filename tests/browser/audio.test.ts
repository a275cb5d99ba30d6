import { beforeAll, expect, test } from "vitest";
import { dbToGain } from "../../src/sound/dsp/units.js";
import { expectWithin } from "../within.js";
import { describeInChromium } from "./chromium.js";
import { type Comparison, comparison, readBytes, samplesOf24BitWav } from "./comparison.js";
import { recordedSeconds, recordInstead } from "./recorder.js";
import { rigYaml } from "./rig.js";
import { rateHz, sineTake } from "./sineTake.js";

const at = (seconds: number): number => Math.round(seconds * rateHz);
/** The player sets changes this far ahead: what is started at 0 sounds from here on. */
const ahead = at(0.02);
const volume = dbToGain(-12);
const fade = at(0.02);

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

  /**
   * Opens the page, does `acts` once the clock says so, and gives the whole output. Nothing is opened before the first
   * gesture, and the volume is moderate.
   */
  async function recorded(acts: readonly Act[], first: string): Promise<Sides> {
    const { page, complaints } = await open((await made).page, {}, recordInstead);
    await page.waitForFunction(() => window.splitsum?.progress === null);
    const before = await page.evaluate(() => [
      window.recorder === undefined,
      window.splitsum!.player.volumeDb,
    ]);
    expect(before).toEqual([true, -12]);
    const run = (script: string) => `{ const bench = window.splitsum, { player } = bench; ${script} }`;
    await page.evaluate(run(first));
    for (const [seconds, script] of acts) {
      await page.evaluate(`window.recorder.at(${seconds}, () => ${run(script)})`);
    }
    const output = await page.evaluate(() => window.recorder!.run());
    expect(complaints).toEqual([]);
    const [left, right] = output.map(
      (letters) => new Float32Array(Uint8Array.from(Buffer.from(letters, "latin1")).buffer),
    );
    return [left, right];
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

  /**
   * -120 dBFS, 1e-6, is asked for: the rounding of the file, and of the gains on the way. As wired, one gain for all
   * brings the highest peak to -1 dBTP at most.
   */
  test("every choice, matched, folded or as wired, is the file of the command line", async () => {
    const { report } = await made;
    const peaks = report.routings.map(({ measures }) => measures!.truePeakDbtp!);
    const oneGainDb = Math.min(0, -1 - Math.max(...peaks, report.take.measures.truePeakDbtp!));
    const { matchGainDb } = report.routings.find(({ id }) => id === "summed")!;
    const asWired = volume * dbToGain(oneGainDb - matchGainDb!);
    const matched = ["dry", "series-mono", "unit-first", "parallel", "parallel-after", "stereo-unit"];
    const parts = [
      ...matched.map((id) => ({
        act: `player.choose("${id}")`,
        file: fileOf(`${id}.wav`),
        settled: 3 * fade,
      })),
      // Fold and levels glide, with a time constant of 6 ms.
      { act: "player.setFolded(true)", file: fileOf("stereo-unit.mono.wav"), settled: at(0.12) },
      {
        act: 'player.setFolded(false); player.setMatched(false); player.choose("summed")',
        file: fileOf("summed.wav", asWired),
        settled: at(0.12),
      },
    ];
    const startOf = (n: number) => 0.24 * n;
    const played = await recorded(
      parts.map(({ act }, n): Act => [startOf(n), act]).slice(1),
      `${parts[0].act}; player.play()`,
    );
    for (const [n, { act, file, settled }] of parts.entries()) {
      const [from, to] = [n === 0 ? 0 : at(startOf(n)) + settled, at(startOf(n + 1))];
      for (const side of [0, 1]) {
        const expected = (await file)[side];
        expect(largest(difference(played[side], expected), from, to), act).toBeLessThan(1e-6);
        expect(largest(expected, from, to)).toBeGreaterThan(0.005);
      }
    }
  });

  /** One switch, and later the keys mashed. */
  const mashed = ["parallel", "dry", "one-side", "summed", "dry", "stereo-unit"];
  let switched: Sides;
  beforeAll(async () => {
    const acts = mashed.map((id, n): Act => [1.2 + 0.008 * n, `player.choose("${id}")`]);
    switched = await recorded([[0.6, 'player.choose("one-side")'], ...acts], playing("dry"));
  });

  /**
   * Of y = (1 - s) a + s b with s rising from 0 to 1 over F frames, a step is at most the larger of the two sounds' own
   * steps and |a - b| / F more: closed form. A switch without a fade would be many times over that.
   */
  test("a switch during a sine makes no step larger than the crossfade does", async () => {
    const [a, b] = [await fileOf("dry.wav"), await fileOf("one-side.wav")];
    const from = at(0.6);
    const to = from + 3 * fade;
    for (const side of [0, 1]) {
      const apart = largest(difference(a[side], b[side]), from, to);
      const own = Math.max(largestStep(a[side], from, to), largestStep(b[side], from, to));
      expect(largestStep(switched[side], from, to)).toBeLessThan(own + apart / fade + 1e-7);
      expect(largest(difference(switched[side], a[side]), 0, from)).toBeLessThan(1e-7);
      expect(largest(difference(switched[side], b[side]), to, at(1.2))).toBeLessThan(1e-7);
      const hard = largest(
        a[side].map((x, n) => b[side][n + 1] - x),
        from,
        to,
      );
      expect(hard).toBeGreaterThan(2 * (own + apart / fade));
    }
  });

  test("mashing the keys stays within one crossfade's step and ends on the last", async () => {
    const files = await Promise.all(mashed.map((id) => fileOf(`${id}.wav`)));
    const [from, to] = [at(1.1), switched[0].length];
    for (const side of [0, 1]) {
      const own = Math.max(...files.map((sides) => largestStep(sides[side], from, to)));
      const loudest = Math.max(...files.map((sides) => largest(sides[side])));
      expect(largestStep(switched[side], from, to)).toBeLessThan(own + (2 * loudest) / fade);
      expect(largest(difference(switched[side], files[5][side]), at(1.6))).toBeLessThan(1e-7);
    }
  });

  test("a mixer move is heard within 50 ms, without a step, and ends where a render does", async () => {
    const yaml = rigYaml.replace("returnDb: -8", "returnDb: 0, returnPan: -1");
    const turned = await comparison(yaml, sineTake());
    const gainDb = ({ report }: Comparison) =>
      report.routings.find(({ id }) => id === "parallel")!.matchGainDb!;
    const file = await fileOf("parallel.wav", volume * dbToGain(gainDb(await made) - gainDb(turned)), turned);
    const still = await fileOf("parallel.wav");
    const moved = await recorded(
      [[1, "bench.setMixer({ returnDb: 0, returnPan: -1 })"]],
      playing("parallel"),
    );
    for (const side of [0, 1]) {
      const change = difference(moved[side], still[side]);
      const full = largest(change, at(1.2), at(1.5));
      expect(full).toBeGreaterThan(0.005);
      expect(largest(change, 0, at(1))).toBeLessThan(1e-7);
      expect(largest(change, at(1.03), at(1.05))).toBeGreaterThan(0.5 * full);
      const own = largestStep(still[side], at(0.5), at(0.9)) + largestStep(moved[side], at(1.2), at(1.5));
      expect(largestStep(moved[side], at(1), at(1.1))).toBeLessThan(own);
      expect(largest(difference(moved[side], file[side]), at(1.2))).toBeLessThan(1e-6);
    }
  });

  test("a jump, a pause and going on leave no click, and the place is kept", async () => {
    const [left] = await recorded(
      [
        [0.6, "player.seek(1.3234)"],
        [1, "player.pause()"],
        [1.4, "player.play()"],
      ],
      playing("dry"),
    );
    const [dry] = await fileOf("dry.wav");
    const own = largestStep(dry, at(0.6), at(2));
    expect(largestStep(left, 1, left.length)).toBeLessThan(own + (2 * largest(dry)) / at(0.01));
    expect(largest(left, at(1.04), at(1.4))).toBe(0);
    // From the pause on: 0.4 s behind the jump, fades aside.
    const resumedAt = at(1.4) + ahead;
    const place = at(1.3234) + at(0.4) + ahead;
    const rest = left.subarray(resumedAt + at(0.02));
    const expected = dry.subarray(place + at(0.02), place + at(0.02) + 4800);
    const off = largest(Float32Array.from({ length: 4800 }, (_, n) => rest[n] - expected[n]));
    expect(off).toBeLessThan(1e-6);
  });

  test("a loop comes round at its place without a click", async () => {
    const [left] = await recorded(
      [],
      `player.setLoop({ on: true, from: 0.6, to: 1.1501 }); ${playing("dry")}`,
    );
    const [dry] = await fileOf("dry.wav");
    const own = largestStep(dry, at(0.6), at(2));
    expect(largestStep(left, ahead + at(0.02), left.length)).toBeLessThan(
      own + (2 * largest(dry)) / at(0.01),
    );
    // Round after round the same, from the loop's beginning on.
    const turn = at(1.1501) - at(0.6);
    for (let round = 1; round < 4; round++) {
      const again = left.subarray(ahead + round * turn, ahead + round * turn + at(0.5));
      const first = dry.subarray(ahead + at(0.6), ahead + at(1.1));
      expect(largest(again.map((x, n) => x - first[n]))).toBeLessThan(1e-6);
    }
  });

  test("a device that never begins is told", async () => {
    const { page } = await open((await made).page, {}, recordInstead);
    await page.waitForFunction(() => window.splitsum?.progress === null);
    await page.evaluate(() => window.splitsum!.player.play());
    await page.waitForFunction(() => window.splitsum!.fault !== null);
    expect(await page.evaluate(() => window.splitsum!.fault)).toMatch(/^The browser has nothing to play on/);
  });

  /** Out, pause, in: 50, 300 and 50 ms, to the frame, whatever is switched to; matched, whatever was asked for. */
  test("a blind switch takes the same time and fades onto another sound and onto the same, and is matched", async () => {
    const acts = [
      [0.6, "dry"],
      [1.2, "one-side"],
    ] as const;
    const [left] = await recorded(
      acts.map(([seconds, id]): Act => [seconds, `player.playBlind("${id}")`]),
      `player.setMatched(false); ${playing("dry")}`,
    );
    for (const [seconds, id] of acts) {
      let silentFrom = at(seconds);
      while (largest(left, silentFrom, silentFrom + 200) > 0) silentFrom++;
      let silentTo = silentFrom + 200;
      while (left[silentTo] === 0) silentTo++;
      expectWithin(silentFrom, at(seconds + 0.02 + 0.05), 3, "frames");
      expectWithin(silentTo, at(seconds + 0.02 + 0.35), 3, "frames");
      const [file] = await fileOf(`${id}.wav`);
      const [from, to] = [at(seconds + 0.48), at(seconds + 0.6)];
      expect(largest(difference(left, file), from, to)).toBeLessThan(1e-6);
      expect(largest(file, from, to)).toBeGreaterThan(0.01);
    }
  });
});
