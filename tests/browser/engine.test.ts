import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { beforeAll, expect, test } from "vitest";
import { encodeWav } from "../../src/sound/audio/encodeWav.js";
import type { Report } from "../../src/work/compare/report.js";
import { noise, sine } from "../signals.js";
import { describeInChromium } from "./chromium.js";
import {
  type Comparison,
  comparison,
  expectSameFigures,
  readBytes,
  samplesOf24BitWav,
  type TakeSound,
} from "./comparison.js";
import { flacOf } from "./flac.js";
import { keysYaml, rigYaml } from "./rig.js";

const rateHz = 48_000;

/** Decaying tones and noise with rests between them; 24 bits hold it exactly. */
function takeOf(seed: number, rate = rateHz, channels = 1): TakeSound {
  const frames = Math.round(1.5 * rate);
  const tone = sine({ frequencyHz: 196 + seed, rateHz: rate, lengthSeconds: 1.5, peakDbfs: -9 });
  const hiss = noise({ seed, frames, rms: 0.02 });
  const one = Float32Array.from({ length: frames }, (_, n) => {
    const gone = (n % (rate / 2)) / rate;
    return Math.round((tone[n] + hiss[n]) * Math.exp(-7 * gone) * 2 ** 23) / 2 ** 23;
  });
  return { channels: Array.from({ length: channels }, () => one), rateHz: rate, bits: 24 };
}

const figuresOf = ({ take, routings, frames, matching }: Report) => ({
  take: { measures: take.measures, matchGainDb: take.matchGainDb },
  frames,
  matching,
  routings: routings.map(({ id, measures, matchGainDb, build }) => ({ id, measures, matchGainDb, build })),
});

const peakDifference = (a: Float32Array, b: Float32Array): number => {
  expect(a.length).toBe(b.length);
  return a.reduce((most, x, n) => Math.max(most, Math.abs(x - b[n])), 0);
};

/** The samples of a mono WAV file with a 44-byte head. */
const samplesOf16BitWav = (bytes: Uint8Array): Float32Array =>
  Float32Array.from(new Int16Array(bytes.slice(44).buffer), (x) => x / 2 ** 15);

describeInChromium("the page renders and measures as the command line does", (open) => {
  const made = comparison(rigYaml, takeOf(1));

  async function opened(of: Comparison) {
    const { page, complaints } = await open(of.page);
    const settled = () => page.waitForFunction(() => window.splitsum?.progress === null);
    await settled();
    return {
      page,
      complaints,
      settled,
      /** Brings a take; gives what was said against it, or nothing. */
      bring: (name: string, bytes: Uint8Array): Promise<string> =>
        page.evaluate(
          async ([file, letters]) => {
            const read = Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
            try {
              await window.splitsum!.loadTake(new File([read], file));
              return "";
            } catch (error) {
              return error instanceof Error ? error.message : String(error);
            }
          },
          [name, Buffer.from(bytes).toString("latin1")] as const,
        ),
      report: (): Promise<Report> => page.evaluate(() => window.splitsum!.report!),
      wav: async (id: string) => {
        const letters = await page.evaluate(async (choice) => {
          const bytes = new Uint8Array(await window.splitsum!.routingWav(choice).arrayBuffer());
          return bytes.reduce((text, byte) => text + String.fromCharCode(byte), "");
        }, id);
        return Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
      },
    };
  }

  /** One page for all tests that only read, or bring a take of their own. */
  let shared: Awaited<ReturnType<typeof opened>>;
  beforeAll(async () => {
    shared = await opened(await made);
  });

  /** -120 dBFS is asked for; what a 24-bit file can differ by is its rounding, -138 dBFS or one step of it. */
  test("its samples are those of the files", async () => {
    const command = await made;
    const bench = shared;
    for (const { id, files } of command.report.routings) {
      const saved = samplesOf24BitWav(await bench.wav(id));
      const written = samplesOf24BitWav(readBytes(command.file(files!.stereo)));
      for (const side of [0, 1]) {
        expect(peakDifference(saved[side], written[side]), `${id}, side ${side}`).toBeLessThanOrEqual(
          2 ** -23,
        );
      }
    }
    expect(bench.complaints).toEqual([]);
  });

  test("its policy lets SIMD loops run in page and worker", async () => {
    const { page } = await opened(await made);
    const built = readFileSync(new URL("../../dist/sound/loops/assembled.js", import.meta.url), "utf8");
    const code = /"([^"]+)"/.exec(built)?.[1] ?? "";
    const mixed = [20.5, 41, 61.5, 82];
    expect(await page.evaluate(mixBySimd, code)).toEqual(mixed);
    expect(page.workers().length).toBeGreaterThan(0);
    for (const worker of page.workers()) expect(await worker.evaluate(mixBySimd, code)).toEqual(mixed);
  });

  /** The report in the page is spoilt first: what comes out right was computed there. */
  test("its figures are those of report.json, and it computed them itself", async () => {
    const command = await made;
    const spoilt = command.page.replace(".html", ".spoilt.html");
    const html = readFileSync(command.page, "utf8").replace(
      /"(sideShare|centroidHz)":[\d.e-]+/g,
      '"$1":0.123',
    );
    writeFileSync(spoilt, html);
    const bench = await opened({ ...command, page: spoilt });
    const asWritten: Report = JSON.parse(readFileSync(command.file("report.json"), "utf8"));
    expectSameFigures(figuresOf(await bench.report()), figuresOf(asWritten), 9);
  });

  test("both sides of a stereo take travel for an instrument with two outputs, and one that is brought is kept so", async () => {
    const [{ channels: left }, { channels: right }] = [takeOf(1), takeOf(2)];
    const take: TakeSound = { channels: [...left, ...right], rateHz, bits: 24 };
    const other: TakeSound = { ...take, channels: [...right, ...left] };
    const command = await comparison(keysYaml, take);
    expect(command.report.take.measures.correlation).toBeLessThan(0.5);
    const bench = await opened(command);
    expectSameFigures(figuresOf(await bench.report()), figuresOf(command.report), 9);
    expect(await bench.bring("other.wav", encodeWav(other, 24))).toBe("");
    await bench.settled();
    const brought = await comparison(keysYaml, other);
    expectSameFigures(figuresOf(await bench.report()), figuresOf(brought.report), 9);
  });

  test("settings dragged and changed, saved and run by the command line, give the same figures", async () => {
    const before = await shared.report();
    // Each is overtaken by the next once its render has begun, and given up.
    for (const lfoHz of [0.5, 1.1, 1.7]) {
      await shared.page.evaluate((hz) => window.splitsum!.setSetting("Weir", "lfoHz", hz), lfoHz);
      await shared.page.waitForTimeout(120);
    }
    const yaml = await shared.page.evaluate(() => {
      const { splitsum } = window;
      splitsum!.setSetting("Weir", "lfoHz", 2.5);
      splitsum!.setSetting("Tank", "mix", 0.6);
      splitsum!.setUnit("Tank", {
        latencyMs: 3.3,
        invertsPolarity: true,
        canGoFullyWet: false,
        dryLeakDb: -20,
      });
      splitsum!.setMixer({ returnDb: -3, returnPan: 0.4 });
      return splitsum!.desk.text;
    });
    await shared.settled();
    const after = await shared.report();
    expect(yaml).toContain("lfoHz: 2.5");
    const again = await comparison(yaml, takeOf(1));
    expectSameFigures(figuresOf(after), figuresOf(again.report), 9);
    const width = ({ routings }: Report) => routings.map(({ measures }) => measures?.sideShare);
    expect(width(after)).not.toEqual(width(before));
    expect(shared.complaints).toEqual([]);
    await shared.page.evaluate(() => window.splitsum!.reset());
    await shared.settled();
  });

  test("a mixer that was turned changes nothing but its own routings", async () => {
    const bench = shared;
    const before = figuresOf(await bench.report());
    await bench.page.evaluate(() => window.splitsum!.setMixer({ returnDb: -20 }));
    await bench.settled();
    const after = figuresOf(await bench.report());
    for (const [n, { id, measures }] of after.routings.entries()) {
      const same = measures?.integratedLufs === before.routings[n].measures?.integratedLufs;
      expect(same, id).toBe(!id.startsWith("parallel"));
    }
    await bench.page.evaluate(() => window.splitsum!.reset());
    await bench.settled();
    expectSameFigures(figuresOf(await bench.report()), before, 12);
  });

  test.each([
    ["empty.wav", new Uint8Array(0), /is empty/],
    ["notes.txt", new TextEncoder().encode("not a sound at all"), /not a sound file/],
    ["silence.wav", encodeWav({ rateHz, channels: [new Float32Array(9600)] }, 24), /holds no sound \(0\.2 s/],
    [
      "surround.wav",
      encodeWav({ rateHz, channels: Array<Float32Array>(6).fill(new Float32Array(960)) }, 16),
      /has 6 channels/,
    ],
  ])("%s is refused in a sentence, and the old take stays", async (name, bytes, sentence) => {
    const old = await shared.page.evaluate(() => window.splitsum!.takeName);
    expect(await shared.bring(name, bytes)).toMatch(sentence);
    expect(await shared.page.evaluate(() => window.splitsum!.takeName)).toBe(old);
  });

  /**
   * Files of one sound give one set of figures, whatever holds it: the command line's of the first. That it reads them
   * all alike is held by `tests/node/audio/readTake.test.ts` and `tests/sound/audio/flac.test.ts`. 16-bit FLAC is where
   * decoders of browsers differ by -96 dB.
   */
  test.each([
    [16, takeOf(9, 32_000)],
    [24, takeOf(7, 44_100, 2)],
  ] as const)("takes of %i bits brought to it give the figures of the command line", async (bits, take) => {
    const wav = encodeWav(take, bits);
    // 16 bits are written with noise: what the file holds is the take.
    const held = bits === 16 ? samplesOf16BitWav(wav) : take.channels[0];
    const files = {
      "take.wav": wav,
      "take.flac": await flacOf(held, take.rateHz, bits),
      "float.wav": encodeWav({ rateHz: take.rateHz, channels: [held] }, 32),
    };
    const { report } = await comparison(rigYaml, { ...take, bits });
    const { frames, rateHz: rate } = report.take;
    for (const [name, bytes] of Object.entries(files)) {
      expect(await shared.bring(name, bytes)).toBe("");
      await shared.settled();
      const brought = await shared.report();
      const sha256 = createHash("sha256").update(bytes).digest("hex");
      const channels = name === "take.wav" ? take.channels.length : 1;
      expect(brought.take).toMatchObject({ file: name, sha256, channels, frames, rateHz: rate });
      expectSameFigures(figuresOf(brought), figuresOf(report), 9, name);
    }
    expect(shared.complaints).toEqual([]);
  });

  test.each(["tone-997.mp3", "tone-997.ogg", "tone-997.m4a"])("%s is read at its own rate", async (name) => {
    const bytes = readBytes(new URL(`../sound/audio/fixtures/${name}`, import.meta.url));
    expect(await shared.bring(name, bytes)).toBe("");
    await shared.settled();
    const { take } = await shared.report();
    expect([take.file, take.rateHz]).toEqual([name, 44_100]);
    // The file holds a tone of 997 Hz; its centroid lies there.
    expect(Math.abs(take.measures.centroidHz! / 997 - 1)).toBeLessThan(0.02);
  });

  test("a sound file that a setting names travels with the page", async () => {
    const yaml = rigYaml
      .replace("model: plate", "model: response")
      .replace("mix: 0.35", "mix: 0.35, file: tank.wav");
    const decaying = noise({ seed: 5, frames: 24_000 }).map((x, n) => x * Math.exp(-n / 4000));
    const tank = { channels: [decaying], rateHz, bits: 32 } as const;
    const command = await comparison(yaml, takeOf(1), { "tank.wav": encodeWav(tank, 32) });
    const bench = await opened(command);
    expectSameFigures(figuresOf(await bench.report()), figuresOf(command.report), 9);
    expect(bench.complaints).toEqual([]);
  });
});

/** Half of 1, 2, 3, 4 and twice 10, 20, 30, 40, by the loops whose code this is. */
function mixBySimd(base64: string): number[] {
  const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  const memory = new WebAssembly.Memory({ initial: 1, maximum: 1 });
  const { exports } = new WebAssembly.Instance(new WebAssembly.Module(bytes), { env: { memory } });
  const sound = new Float32Array(memory.buffer, 128, 12);
  new Float64Array(memory.buffer, 64, 2).set([0.5, 2]);
  sound.set([1, 2, 3, 4, 10, 20, 30, 40]);
  if (typeof exports.mix !== "function") throw new Error("there is no loop that mixes");
  exports.mix(128, 16, 64, 2, 160, 4);
  return [...sound.subarray(8)];
}
