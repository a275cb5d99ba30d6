import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { basename } from "node:path";
import type { PageData } from "../../page/contract/pageData.js";
import { type EngineInputs, scriptIds, type TravellingTake } from "../../page/live/pageInputs.js";
import { mostTakeFrames } from "../../page/live/takeMemory.js";
import type { Rig } from "../../rig/model/rig.js";
import type { Routing } from "../../rig/routings/routing.js";
import { layoutWiring, type WiringLayout } from "../../rig/wiring/layout.js";
import { encodeFlac, flacTakesRate } from "../../sound/audio/encodeFlac.js";
import { encodeWav } from "../../sound/audio/encodeWav.js";
import type { Take, TakeFacts } from "../../sound/audio/take.js";
import { channelsOf, type HeldTake } from "../../sound/audio/takeSource.js";
import { answerText } from "../../words/answerText.js";
import { answerWords } from "../../words/answerWords.js";
import { compareTable } from "../../words/table.js";
import type { Report } from "../../work/compare/report.js";
import type { PageSweep } from "../../work/sweep/pageSweep.js";
import type { LongTake } from "../audio/readTake.js";
import { pageHtml } from "./pageHtml.js";

/** What a page is made from, besides the report. */
export interface PageSource {
  readonly rig: Rig;
  readonly take: Pick<Take | LongTake, "samples" | "frames" | "rateHz">;
  /** Others that it was compared with. */
  readonly moreTakes?: readonly (Take | LongTake)[];
  /** Those of the report. */
  readonly routings: readonly Routing[];
  /** Sound files that settings name, at the rate of the take. */
  readonly clips: ReadonlyMap<string, readonly Float32Array[]>;
  readonly tailSeconds: number;
  readonly sweep?: PageSweep;
  /** The page is not wanted any more. */
  readonly signal?: AbortSignal;
}

/** A page on its way: what takes time is done while the take is rendered. */
export interface PendingPage {
  /** @throws Error when the page's scripts have not been built */
  finish(report: Report, more?: Pick<PageData, "overTakes">): Promise<string>;
}

/** Begins the page that goes with a report: one HTML file with the rig, the take and the engine in it. */
export function beginPage(source: PageSource): PendingPage {
  const parts = Promise.all([layoutsOf(source), inputsOf(source)]);
  // A comparison that fails meanwhile never asks for the page: its failure is then of no matter.
  parts.catch(() => {});
  return {
    finish: async (report, more = {}) => {
      const [layouts, inputs] = await parts;
      const data: PageData = { report, layouts, ...more, ...(source.sweep ? { sweep: source.sweep } : {}) };
      return pageHtml({
        title: `${source.rig.name}: ways to wire it`,
        script: builtFile("app.bundle.js"),
        plain: plainText(report),
        licences: builtFile("licences.txt"),
        data: {
          [scriptIds.data]: data,
          [scriptIds.inputs]: inputs,
          [scriptIds.engine]: builtFile("engine.bundle.js"),
          [scriptIds.fft]: base64(readFileSync(fftBinary)),
        },
      });
    },
  };
}

async function layoutsOf({ routings, signal }: PageSource): Promise<PageData["layouts"]> {
  const laid: Record<string, WiringLayout> = {};
  for (const { id, wiring } of routings) {
    if (wiring) laid[id] = await layoutWiring(wiring);
    // The calling thread hears of other things in between.
    await new Promise((resolve) => setImmediate(resolve));
    signal?.throwIfAborted();
  }
  return laid;
}

async function inputsOf(source: PageSource): Promise<EngineInputs> {
  const { rig, take, moreTakes = [], routings, clips, tailSeconds } = source;
  const choices = routings.filter(({ wiring }) => wiring !== null).length + 1;
  let room = mostTravelBytes;
  const travelling = async ({ samples, frames, rateHz }: PageSource["take"]) => {
    if (samples === null || frames > mostTakeFrames(choices, rateHz, tailSeconds)) return null;
    const travels = await takeToTravel(samples, rateHz, source.signal);
    if (travels.file.length > room) return null;
    room -= travels.file.length;
    return travels;
  };
  const files = [...clips].map(([name, channels]) => {
    const file = encodeWav({ rateHz: take.rateHz, channels }, 32, name);
    return [name, base64(file)];
  });
  const first = await travelling(take);
  const more: EngineInputs["moreTakes"][number][] = [];
  for (const each of moreTakes) {
    const travels = await travelling(each);
    if (travels) more.push({ facts: factsOf(each), take: travels });
  }
  return {
    rig,
    tailSeconds,
    take: first,
    moreTakes: more,
    clips: Object.fromEntries(files),
  };
}

/** The answer and the table, for who cannot run the page. */
const plainText = (report: Report): string =>
  `${answerText(answerWords(report), plainColumns)}\n\n${compareTable(report, plainColumns)}`;
const plainColumns = 100;

const factsOf = ({
  file,
  sha256,
  rateHz,
  frames,
  channels,
  notices,
  silent,
}: Take | LongTake): TakeFacts => ({
  file: basename(file),
  sha256,
  rateHz,
  frames,
  channels,
  notices,
  silent,
});

/** Letters of base64 for all takes. More make a page that no mail takes (25 MB, common practice), and are left out. */
const mostTravelBytes = 20e6;
/** Shorter ones are no whole block of FLAC. */
const leastFlacFrames = 4096;

/** 24 bits, scaled by a power of two where the take goes over full scale. */
async function takeToTravel(
  samples: HeldTake,
  rateHz: number,
  signal: AbortSignal | undefined,
): Promise<TravellingTake> {
  let peak = 0;
  const sides = channelsOf(samples);
  for (const side of sides) for (const x of side) peak = Math.max(peak, Math.abs(x));
  const scale = peak > 1 ? 2 ** Math.ceil(Math.log2(peak)) : 1;
  const scaled = scale === 1 ? sides : sides.map((side) => side.map((x) => x / scale));
  const isFlac = flacTakesRate(rateHz) && samples.length >= leastFlacFrames;
  const file = isFlac
    ? await encodeFlac(scaled, rateHz, signal)
    : encodeWav({ rateHz, channels: scaled }, 24);
  return {
    file: base64(file),
    scale,
    isRounded: scaled.some((side) => side.some((x) => !Number.isInteger(x * 2 ** 23))),
  };
}

const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString("base64");

const fftBinary = createRequire(import.meta.url)
  .resolve("@echogarden/pffft-wasm/simd")
  .replace(/\.js$/, ".wasm");

/** A file that the build put together, the same from src and from dist. */
function builtFile(name: string): string {
  return readFileSync(new URL(`../../../dist/page/${name}`, import.meta.url), "utf8");
}
