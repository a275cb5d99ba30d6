import { readFileSync, writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import { encodeWav } from "../../src/sound/audio/encodeWav.js";
import type { Report } from "../../src/work/compare/report.js";
import { noise, sine } from "../signals.js";
import { describeInChromium } from "./chromium.js";
import {
  type Comparison,
  comparison,
  comparisonOf,
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
  const frames = Math.round(2.5 * rate);
  const tone = sine({ frequencyHz: 196 + seed, rateHz: rate, lengthSeconds: 2.5, peakDbfs: -9 });
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
      report: (): Promise<Report> => page.evaluate(() => window.splitsum!.report),
      wav: async (id: string) => {
        const letters = await page.evaluate(async (choice) => {
          const bytes = new Uint8Array(await window.splitsum!.routingWav(choice).arrayBuffer());
          return bytes.reduce((text, byte) => text + String.fromCharCode(byte), "");
        }, id);
        return Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
      },
    };
  }

  /** -120 dBFS is asked for; what a 24-bit file can differ by is its rounding, -138 dBFS or one step of it. */
  test("its samples are those of the files", async () => {
    const command = await made;
    const bench = await opened(command);
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

  test("settings changed, saved and run by the command line give the same figures", async () => {
    const bench = await opened(await made);
    const before = await bench.report();
    const yaml = await bench.page.evaluate(() => {
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
      return splitsum!.rigYaml();
    });
    await bench.settled();
    const after = await bench.report();
    const again = await comparison(yaml, takeOf(1));
    expectSameFigures(figuresOf(after), figuresOf(again.report), 9);
    const width = ({ routings }: Report) => routings.map(({ measures }) => measures?.sideShare);
    expect(width(after)).not.toEqual(width(before));
  });

  test("a mixer that was turned changes nothing but its own routings", async () => {
    const bench = await opened(await made);
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
    ["24-bit stereo, other rate", takeOf(7, 44_100, 2)],
    ["16-bit mono", { ...takeOf(9), bits: 16 } as const],
    ["float", { ...takeOf(11), bits: 32 } as const],
  ])("a take brought to it, %s, gives the figures of the command line", async (_name, take) => {
    const bench = await opened(await made);
    const command = await comparison(rigYaml, take);
    await bench.bring("take.wav", encodeWav(take, take.bits));
    await bench.settled();
    const { take: facts } = await bench.report();
    const { sha256, channels, frames, rateHz: rate } = command.report.take;
    expect(facts).toMatchObject({ sha256, channels, frames, rateHz: rate });
    expectSameFigures(figuresOf(await bench.report()), figuresOf(command.report), 9);
  });

  /** 16-bit FLAC is where decoders differ by -96 dB; `web-audio-api` decodes it for the command line. */
  test.each([16, 24] as const)(
    "a FLAC take of %i bits gives the figures of the command line",
    async (bits) => {
      const samples = takeOf(13).channels[0].map((x) => Math.round(x * 2 ** (bits - 1)) / 2 ** (bits - 1));
      const file = await flacOf(samples, rateHz, bits);
      const command = await comparison(rigYaml, takeOf(13), { "take.flac": file });
      const fromFlac = await comparisonOf(`${command.folder}/rig.yaml`, `${command.folder}/take.flac`);
      const bench = await opened(await made);
      await bench.bring("take.flac", file);
      await bench.settled();
      expectSameFigures(figuresOf(await bench.report()), figuresOf(fromFlac.report), 9);
      expect((await bench.report()).take.sha256).toBe(fromFlac.report.take.sha256);
    },
  );

  test.each(["tone-997.mp3", "tone-997.ogg", "tone-997.m4a"])("%s is read at its own rate", async (name) => {
    const bytes = readBytes(new URL(`../sound/audio/fixtures/${name}`, import.meta.url));
    const bench = await opened(await made);
    await bench.bring(name, bytes);
    await bench.settled();
    const { take } = await bench.report();
    expect([take.file, take.rateHz]).toEqual([name, 44_100]);
    // The file holds a tone of 997 Hz; its centroid lies there.
    expect(Math.abs(take.measures.centroidHz! / 997 - 1)).toBeLessThan(0.02);
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
    const bench = await opened(await made);
    expect(await bench.bring(name, bytes)).toMatch(sentence);
    expect(await bench.page.evaluate(() => window.splitsum!.takeName)).toBe("take.wav");
  });

  test("dragging gives up what is overtaken and ends with the last setting", async () => {
    const bench = await opened(await made);
    for (const lfoHz of [0.5, 1.1, 1.7, 2.3]) {
      await bench.page.evaluate((hz) => window.splitsum!.setSetting("Weir", "lfoHz", hz), lfoHz);
      await bench.page.waitForTimeout(120);
    }
    await bench.settled();
    const yaml = await bench.page.evaluate(() => window.splitsum!.rigYaml());
    expect(yaml).toContain("lfoHz: 2.3");
    const again = await comparison(yaml, takeOf(1));
    expectSameFigures(figuresOf(await bench.report()), figuresOf(again.report), 9);
    expect(bench.complaints).toEqual([]);
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
