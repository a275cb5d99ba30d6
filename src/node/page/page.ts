import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { PageData } from "../../page/contract/pageData.js";
import { type PageParts, pageHtml } from "../../page/file/pageHtml.js";
import { scriptIds } from "../../page/live/pageInputs.js";
import { pageTitle, plainAnswer } from "../../words/pageWords.js";
import { compareTable } from "../../words/table.js";
import type { Report } from "../../work/compare/report.js";
import type { PageSweep } from "../../work/sweep/pageSweep.js";
import { ownFile } from "../files/ownFile.js";
import { base64, type EngineSource, inputsOf } from "./engineInputs.js";

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
  const travelling = inputsOf(source);
  // A comparison that fails meanwhile never asks for the page: its failure is then of no matter.
  travelling.catch(() => {});
  return {
    finish: async (report, more = {}) => {
      const inputs = await travelling;
      const { sweep } = source;
      // A comparison is mailed to who plays the rig; a sweep is for who sets it up.
      const opensOn = sweep ? "everything" : "short";
      const data: PageData = { report, opensOn, ...more, ...(sweep ? { sweep } : {}) };
      return builtPage({
        title: pageTitle(source.rig.name),
        plain: `${plainAnswer(report)}\n\n${compareTable(report, 100)}`,
        data: { [scriptIds.data]: data, [scriptIds.inputs]: inputs },
      });
    },
  };
}

/** A page with the scripts that the build put together. @throws Error when they have not been built */
export function builtPage({ data, ...words }: Pick<PageParts, "title" | "plain" | "data">): string {
  const script = builtFile("app.bundle.js");
  return pageHtml({
    ...words,
    script,
    scriptHash: createHash("sha256").update(script).digest("base64"),
    licences: builtFile("licences.txt"),
    data: {
      ...data,
      [scriptIds.engine]: builtFile("engine.bundle.js"),
      [scriptIds.fft]: base64(readFileSync(fftBinary)),
    },
  });
}

const fftBinary = createRequire(import.meta.url)
  .resolve("@echogarden/pffft-wasm/simd")
  .replace(/\.js$/, ".wasm");

/** A file that the build put together, the same from src and from dist. */
const builtFile = (name: string): string => readFileSync(ownFile(`dist/page/${name}`), "utf8");
