// Takes the README's picture of the page: fixtures/page.jpg, from the demo's report.html. `npm run picture`.
import { existsSync } from "node:fs";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const root = new URL("../../", import.meta.url);
const page = fileURLToPath(new URL("renders/ferry-road-baritone/report.html", root));
if (!existsSync(page)) throw new Error(`${page} is not there: npm run demo writes it`);

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM_PATH ?? "/usr/bin/chromium",
  args: [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
  ],
});
const context = await browser.newContext({ offline: true, viewport: { width: 1180, height: 860 } });
const tab = await context.newPage();
await tab.goto(pathToFileURL(page).href);
await tab.waitForFunction(() => globalThis.splitsum?.report && !globalThis.splitsum.progress);
await tab.waitForTimeout(500);
await tab.screenshot({ path: fileURLToPath(new URL("fixtures/page.jpg", root)), type: "jpeg", quality: 72 });
await browser.close();
