import { chromium as playwright } from "playwright-core";
import { stepHangMs } from "../../limits.js";
import { chromiumFlags, chromiumPath } from "../chromium.js";
import { type AnyBrowser, type BrowserKind, openIn } from "./tab.js";

async function start(executablePath: string): Promise<AnyBrowser> {
  const browser = await playwright.launch({ executablePath, args: [...chromiumFlags], timeout: stepHangMs });
  return {
    open: async (file) => openIn(await browser.newPage(), file),
    close: () => browser.close(),
  };
}

const path = chromiumPath;

export const chromium: BrowserKind = { name: "Chromium", start: path === null ? null : () => start(path) };
