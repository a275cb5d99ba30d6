import { existsSync } from "node:fs";
import puppeteer from "puppeteer-core";
import { stepHangMs } from "../../limits.js";
import { startLoudspeaker } from "./loudspeaker.js";
import type { AnyBrowser, BrowserKind } from "./tab.js";

const places = [
  process.env.FIREFOX_PATH ?? "",
  "/usr/bin/firefox-esr",
  "/usr/bin/firefox",
  "/Applications/Firefox.app/Contents/MacOS/firefox",
];
const path = places.find((place) => place !== "" && existsSync(place));

async function start(executablePath: string): Promise<AnyBrowser> {
  const loudspeaker = await startLoudspeaker();
  const browser = await puppeteer.launch({
    env: { ...process.env, ...loudspeaker.environment },
    browser: "firefox",
    executablePath,
    headless: true,
    timeout: stepHangMs,
    protocolTimeout: stepHangMs,
  });
  return {
    async open(file) {
      const page = await browser.newPage();
      page.setDefaultTimeout(stepHangMs);
      await page.goto(`file://${file}`);
      return {
        // What is passed in and out is JSON; Puppeteer's types know more of it than that.
        run: (script, given) => page.evaluate(script as never, given as never) as never,
        press: (key) => page.keyboard.press(key as "1"),
      };
    },
    close: () => browser.close().finally(loudspeaker.stop),
  };
}

/** Firefox as it is shipped, by WebDriver BiDi. FIREFOX_PATH names one elsewhere. */
export const firefox: BrowserKind = { name: "Firefox", start: path === undefined ? null : () => start(path) };
