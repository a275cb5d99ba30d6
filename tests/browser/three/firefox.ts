import { existsSync } from "node:fs";
import puppeteer from "puppeteer-core";
import { stepHangMs } from "../../limits.js";
import { startLoudspeaker } from "./loudspeaker.js";
import { type AnyBrowser, type BrowserKind, openIn } from "./tab.js";

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
    open: async (file) => openIn(await browser.newPage(), file),
    close: () => browser.close().finally(loudspeaker.stop),
  };
}

/** Firefox as it is shipped, by WebDriver BiDi. FIREFOX_PATH names one elsewhere. */
export const firefox: BrowserKind = { name: "Firefox", start: path === undefined ? null : () => start(path) };
