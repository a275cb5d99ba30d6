import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { PageData } from "../../page/contract/pageData.js";
import { scriptIds } from "../../page/live/pageInputs.js";
import { layoutWiring, type WiringLayout } from "../../rig/wiring/layout.js";
import { answerText } from "../../words/answerText.js";
import { answerWords } from "../../words/answerWords.js";
import { compareTable } from "../../words/table.js";
import type { Report } from "../../work/compare/report.js";
import type { PageSweep } from "../../work/sweep/pageSweep.js";
import { base64, type EngineSource, inputsOf } from "./engineInputs.js";
import { type PageParts, pageHtml } from "./pageHtml.js";

/** What a page is made from, besides the report. */
export interface PageSource extends EngineSource {
  readonly sweep?: PageSweep;
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
      return builtPage({
        title: `${source.rig.name}: ways to wire it`,
        plain: plainText(report),
        data: { [scriptIds.data]: data, [scriptIds.inputs]: inputs },
      });
    },
  };
}

/** A page with the scripts that the build put together. @throws Error when they have not been built */
export const builtPage = ({ data, ...words }: Pick<PageParts, "title" | "plain" | "data">): string =>
  pageHtml({
    ...words,
    script: builtFile("app.bundle.js"),
    licences: builtFile("licences.txt"),
    data: {
      ...data,
      [scriptIds.engine]: builtFile("engine.bundle.js"),
      [scriptIds.fft]: base64(readFileSync(fftBinary)),
    },
  });

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

/** The answer and the table, for who cannot run the page. */
const plainText = (report: Report): string =>
  `${answerText(answerWords(report), plainColumns)}\n\n${compareTable(report, plainColumns)}`;
const plainColumns = 100;

const fftBinary = createRequire(import.meta.url)
  .resolve("@echogarden/pffft-wasm/simd")
  .replace(/\.js$/, ".wasm");

/** A file that the build put together, the same from src and from dist. */
function builtFile(name: string): string {
  return readFileSync(new URL(`../../../dist/page/${name}`, import.meta.url), "utf8");
}
