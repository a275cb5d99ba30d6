// The page that `compare` makes of the demo rig, in Chromium: from opening to the first sound, and from a turn of a reverb's
// knob until its routing is rendered and until every figure is there. Medians of five, each in a tab of its own.
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import { median } from "./rounds.mjs";

const rounds = 5;

export async function benchPage() {
  const folder = mkdtempSync(join(tmpdir(), "splitsum-bench-"));
  const file = (path) => fileURLToPath(new URL(`../../${path}`, import.meta.url));
  const words = ["compare", file("fixtures/rigs/ferry-road.yaml"), "--out", join(folder, "out"), "--quiet"];
  execFileSync(process.execPath, [file("dist/cli/main.js"), ...words]);
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM_PATH ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu", "--autoplay-policy=no-user-gesture-required"],
  });
  const address = pathToFileURL(join(folder, "out/report.html")).href;
  const times = [];
  for (let round = 0; round <= rounds; round++) times.push(await timesOf(browser, address));
  await browser.close();
  rmSync(folder, { recursive: true });
  const middle = (of) => (median(times.slice(1).map(of)) / 1000).toFixed(2);
  return [
    `page of the demo rig, 19 s of sound: first sound ${middle(({ sound }) => sound)} s after opening (wanted 1.2)`,
    `  a turn of the tank's decay: its routing heard after ${middle(({ heard }) => heard)} s, all figures after ${middle(({ figures }) => figures)} s (wanted 1.0)`,
  ];
}

async function timesOf(browser, address) {
  const context = await browser.newContext({ offline: true, viewport: { width: 1180, height: 860 } });
  const page = await context.newPage();
  await page.addInitScript(waitForSound);
  await page.goto(address);
  await page.waitForFunction(() => globalThis.firstSoundMs !== undefined);
  const sound = await page.evaluate(() => globalThis.firstSoundMs);
  await page.waitForFunction(() => globalThis.splitsum.report && globalThis.splitsum.progress === null);
  const { heard, figures } = await page.evaluate(turnAndWait);
  await context.close();
  return { sound, heard, figures };
}

/** In the page: asks for sound as soon as there is a player, and notes when it plays. */
function waitForSound() {
  const look = () => {
    const player = globalThis.splitsum?.player;
    if (player && !globalThis.hasAsked) {
      globalThis.hasAsked = true;
      player.play();
    }
    if (player?.playing && player.position > 0) globalThis.firstSoundMs = performance.now();
    else setTimeout(look, 5);
  };
  look();
}

/** In the page: turns the tank's decay, and waits for the routing that is chosen, then for everything. */
async function turnAndWait() {
  const { splitsum } = globalThis;
  const start = performance.now();
  splitsum.setSetting("Boiler tank", "decaySeconds", 3.1);
  const after = async (isDone) => {
    while (!isDone()) await new Promise((go) => setTimeout(go, 5));
    return performance.now() - start;
  };
  await after(() => splitsum.progress !== null);
  const overview = splitsum.overview;
  const heard = await after(() => splitsum.overview !== overview || splitsum.progress === null);
  const figures = await after(() => splitsum.progress === null);
  return { heard, figures };
}
