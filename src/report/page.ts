import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { encodeFlac, flacTakesRate } from "../audio/encodeFlac.js";
import { encodeWav } from "../audio/encodeWav.js";
import type { Take } from "../audio/take.js";
import type { PageData } from "../page/bench.js";
import { mostTakeFrames } from "../page/memory.js";
import { type EngineInputs, scriptIds } from "../page/pageInputs.js";
import type { Rig } from "../rig/rig.js";
import type { Routing } from "../routings/routing.js";
import { layoutWiring } from "../wiring/layout.js";
import { pageHtml } from "./pageHtml.js";
import type { Report } from "./report.js";

/** What a page is made from. */
export interface PageSource {
  readonly report: Report;
  readonly rig: Rig;
  readonly take: Pick<Take, "samples" | "rateHz">;
  /** Those of the report. */
  readonly routings: readonly Routing[];
  /** Sound files that settings name, at the rate of the take. */
  readonly clips: ReadonlyMap<string, readonly Float32Array[]>;
  readonly tailSeconds: number;
}

/**
 * The page that goes with a report: one HTML file with the rig, the take and the engine in it.
 * @throws Error when the page's scripts have not been built
 */
export async function pageOf({
  report,
  rig,
  take,
  routings,
  clips,
  tailSeconds,
}: PageSource): Promise<string> {
  const layouts = await Promise.all(
    routings.flatMap(({ id, wiring }) =>
      wiring ? [layoutWiring(wiring).then((laid) => [id, laid] as const)] : [],
    ),
  );
  const data: PageData = { report, layouts: Object.fromEntries(layouts) };
  const most = mostTakeFrames(layouts.length + 1, take.rateHz, tailSeconds);
  const inputs: EngineInputs = {
    rig,
    tailSeconds,
    take: take.samples.length > most ? null : await takeToTravel(take),
    clips: Object.fromEntries(
      [...clips].map(([name, channels]) => [
        name,
        base64(encodeWav({ rateHz: take.rateHz, channels }, 32, name)),
      ]),
    ),
  };
  return pageHtml({
    title: `${rig.name}: ways to wire it`,
    script: builtScript("app"),
    data: {
      [scriptIds.data]: data,
      [scriptIds.inputs]: inputs,
      [scriptIds.engine]: builtScript("engine"),
      [scriptIds.fft]: base64(readFileSync(fftBinary)),
    },
  });
}

/** Longer ones make a page that no mail takes (25 MB, common practice), and are left out. */
const mostTravelBytes = 15e6;
/** Shorter ones are no whole block of FLAC. */
const leastFlacFrames = 4096;

/** 24 bits, scaled by a power of two where the take goes over full scale. */
async function takeToTravel({ samples, rateHz }: PageSource["take"]): Promise<EngineInputs["take"]> {
  const peak = samples.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
  const scale = peak > 1 ? 2 ** Math.ceil(Math.log2(peak)) : 1;
  const scaled = samples.map((x) => x / scale);
  const isFlac = flacTakesRate(rateHz) && samples.length >= leastFlacFrames;
  const file = isFlac ? await encodeFlac(scaled, rateHz) : encodeWav({ rateHz, channels: [scaled] }, 24);
  if (file.length > mostTravelBytes) return null;
  return { file: base64(file), scale, isRounded: scaled.some((x) => !Number.isInteger(x * 2 ** 23)) };
}

const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString("base64");

const fftBinary = createRequire(import.meta.url)
  .resolve("@echogarden/pffft-wasm/simd")
  .replace(/\.js$/, ".wasm");

/** A script that the build put together, the same from src and from dist. */
function builtScript(name: string): string {
  return readFileSync(new URL(`../../dist/page/${name}.bundle.js`, import.meta.url), "utf8");
}
