import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";
import { type CompareWords, prepareCompare } from "../../src/cli/prepareCompare.js";
import { compare } from "../../src/node/compare/compare.js";
import { encodeWav } from "../../src/sound/audio/encodeWav.js";
import type { Report } from "../../src/work/compare/report.js";
import type { RecordingWord } from "../../src/work/recordings/recording.js";
import { temporaryFolder } from "../temporaryFolder.js";

/** A comparison on disk: what the command line writes. */
export interface Comparison {
  readonly folder: string;
  readonly page: string;
  /** The page's address where it shows all of the bench. */
  readonly bench: string;
  readonly report: Report;
  file(name: string): string;
}

/** A take of the tests' own. */
export interface TakeSound {
  readonly channels: readonly Float32Array[];
  readonly rateHz: number;
  readonly bits: 16 | 24 | 32;
}

const usualTailSeconds = 20;

/**
 * Runs `compare` with a rig file's text on a take, in a new folder that goes with the test or group that asks; `beside` are files that
 * the rig names.
 */
export async function comparison(
  rigYaml: string,
  take: TakeSound,
  beside: Readonly<Record<string, Uint8Array>> = {},
  tail = usualTailSeconds,
): Promise<Comparison> {
  const folder = temporaryFolder();
  const rigFile = join(folder, "rig.yaml");
  const takeFile = join(folder, "take.wav");
  writeFileSync(rigFile, rigYaml);
  writeFileSync(takeFile, encodeWav(take, take.bits));
  for (const [name, bytes] of Object.entries(beside)) writeFileSync(join(folder, name), bytes);
  return compared(rigFile, takeFile, folder, { tail });
}

/** Runs `compare` with a rig file on the take that it names, and recordings beside. */
export const comparisonOf = (
  rigFile: string,
  routings: readonly string[],
  also: readonly RecordingWord[] = [],
): Promise<Comparison> => compared(rigFile, null, temporaryFolder(), { routings, also });

async function compared(
  rigFile: string,
  takeFile: string | null,
  folder: string,
  more: Partial<Pick<CompareWords, "routings" | "tail" | "also">> = {},
): Promise<Comparison> {
  const outDir = join(folder, "out");
  const words = { out: outDir, tail: usualTailSeconds, bits: 24, match: true, ...more } as const;
  const { report } = await compare({
    ...(await prepareCompare(rigFile, takeFile === null ? [] : [takeFile], words)),
    threads: 0,
  });
  const page = join(outDir, "report.html");
  return { folder, page, bench: `${page}#everything`, report, file: (name) => join(outDir, name) };
}

/** The 24-bit samples of a WAV file with a 44-byte head, one array a channel. */
export function samplesOf24BitWav(bytes: Uint8Array): Float32Array[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const channels = view.getUint16(22, true);
  const frames = (bytes.length - 44) / 3 / channels;
  return Array.from({ length: channels }, (_, channel) =>
    Float32Array.from({ length: frames }, (_, n) => {
      const at = 44 + 3 * (n * channels + channel);
      return ((view.getInt8(at + 2) << 16) | view.getUint16(at, true)) / 2 ** 23;
    }),
  );
}

export const readBytes = (path: string | URL): Uint8Array => new Uint8Array(readFileSync(path));

/** Every number of `actual` to `digits` significant digits that of `expected`; words and nulls the same. */
export function expectSameFigures(actual: unknown, expected: unknown, digits: number, path = "report"): void {
  if (typeof expected === "number" && typeof actual === "number") {
    const scale = Math.max(Math.abs(expected), 1e-3);
    expect(Math.abs(actual - expected) / scale, `${path}: ${actual}, ${expected}`).toBeLessThan(
      10 ** -digits,
    );
  } else if (expected !== null && typeof expected === "object") {
    expect(Object.keys(Object(actual)), path).toEqual(Object.keys(expected));
    for (const [key, value] of Object.entries(expected)) {
      expectSameFigures(Reflect.get(Object(actual), key), value, digits, `${path}.${key}`);
    }
  } else expect(actual, path).toEqual(expected);
}
