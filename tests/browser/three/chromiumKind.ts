import { chromium as playwright } from "playwright-core";
import { stepHangMs } from "../../limits.js";
import { chromiumFlags, chromiumPath } from "../chromium.js";
import type { AnyBrowser, BrowserKind } from "./tab.js";

async function start(executablePath: string): Promise<AnyBrowser> {
  const browser = await playwright.launch({ executablePath, args: [...chromiumFlags], timeout: stepHangMs });
  return {
    async open(file) {
      const page = await browser.newPage();
      page.setDefaultTimeout(stepHangMs);
      await page.goto(`file://${file}`);
      return {
        run: (script, given) => page.evaluate(script as never, given) as never,
        press: (key) => page.keyboard.press(key),
      };
    },
    close: () => browser.close(),
  };
}

const path = chromiumPath;

export const chromium: BrowserKind = { name: "Chromium", start: path === null ? null : () => start(path) };
