import { existsSync } from "node:fs";
import { type Browser, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, onTestFinished, TestRunner, test } from "vitest";
import { stepHangMs } from "../limits.js";

const places = [
  process.env.CHROMIUM_PATH ?? "",
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
];

/** The Chromium of this machine; null when none is found. CHROMIUM_PATH names one elsewhere. */
export const chromiumPath: string | null = places.find((path) => path !== "" && existsSync(path)) ?? null;

/** Quiet, off the network, and fit for a container. */
export const chromiumFlags: readonly string[] = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

interface OpenPage {
  readonly page: Page;
  /** Everything that the page wrote to its console as a warning or an error, and every exception. */
  readonly complaints: string[];
  /** Addresses that the page asked for, but for itself and its own blobs. */
  readonly requests: string[];
}

/**
 * Opens a file, which may have an anchor behind it, with the network off. What a test opens first, with no more than a size or a colour scheme of its own, goes
 * into the tab that its group shares, by way of an empty page: half the work of a new one. All else has a context of its
 * own, closed when the test ends; opened by a hook, when all of its group have. `script` runs in the page ahead of its own.
 */
export type Open = (file: string, options?: BrowserContextOptions, script?: string) => Promise<OpenPage>;

/**
 * Tests that need a real browser. Where there is none, they are left out, and the name of the group says so plainly.
 * @param more  flags that it is started with, beside the usual ones
 */
export function describeInChromium(
  name: string,
  tests: (open: Open) => void,
  more: readonly string[] = [],
): void {
  if (chromiumPath === null && process.env.SPLITSUM_NEEDS_BROWSERS) {
    test(`${name}: a Chromium is needed here`, () => expect.fail("no Chromium found; set CHROMIUM_PATH"));
    return;
  }
  if (chromiumPath === null) {
    describe.skip(`${name}: LEFT OUT, no Chromium found; install one, or set CHROMIUM_PATH`, () =>
      tests(noBrowser));
    return;
  }
  describe(name, () => {
    let browser: Browser;
    beforeAll(async () => {
      browser = await theBrowser(chromiumPath, more);
    });
    afterAll(async () => {
      await Promise.all(browser.contexts().map((context) => context.close()));
    });
    const newPage = async (options: BrowserContextOptions) => {
      const context = await browser.newContext({ offline: true, ...options });
      const page = await context.newPage();
      page.setDefaultTimeout(stepHangMs);
      return page;
    };
    let shared: Page | null = null;
    let isTaken = false;
    const sharedPage = async ({ viewport = usualSize, colorScheme = "light" }: BrowserContextOptions) => {
      isTaken = true;
      shared ??= await newPage({});
      const page = shared;
      onTestFinished(async () => {
        page.removeAllListeners();
        // What a page keeps over a reload is not for the next test.
        await page.evaluate(() => localStorage.clear()).catch(() => {});
        await page.goto("about:blank");
        isTaken = false;
      });
      await page.emulateMedia({
        media: null,
        reducedMotion: null,
        forcedColors: null,
        contrast: null,
        colorScheme,
      });
      await page.mouse.move(0, 0);
      if (viewport) await page.setViewportSize(viewport);
      return page;
    };
    const ownPage = async (options: BrowserContextOptions) => {
      const page = await newPage(options);
      if (TestRunner.getCurrentTest()) onTestFinished(() => page.context().close());
      return page;
    };
    tests(async (file, options = {}, script = "") => {
      const isPlain = script === "" && Object.keys(options).every((key) => ofSharedPage.includes(key));
      const page =
        TestRunner.getCurrentTest() && isPlain && !isTaken
          ? await sharedPage(options)
          : await ownPage(options);
      const complaints: string[] = [];
      page.on("console", (message) => {
        if (/error|warning/.test(message.type())) complaints.push(message.text());
      });
      page.on("pageerror", (error) => complaints.push(String(error)));
      const requests: string[] = [];
      page.on("request", (request) => {
        const address = request.url();
        if (address !== page.url() && !address.startsWith("blob:")) requests.push(address);
      });
      if (script !== "") await page.addInitScript({ content: script });
      const [path] = file.split("#");
      await page.goto(`file://${file}`);
      requests.splice(requests.indexOf(`file://${path}`), 1);
      return { page, complaints, requests };
    });
  });
}

/** One for all groups of a process that want the same flags: it ends with that. */
const started = new Map<string, Promise<Browser>>();

function theBrowser(executablePath: string, more: readonly string[]): Promise<Browser> {
  const key = more.join(" ");
  const known = started.get(key);
  if (known) return known;
  const args = [...chromiumFlags, ...more];
  const made = chromium.launch({ executablePath, args, timeout: stepHangMs });
  started.set(key, made);
  return made;
}

/** What may differ from test to test in one tab. */
const ofSharedPage: readonly string[] = ["viewport", "colorScheme"];
/** Playwright's own. */
const usualSize = { width: 1280, height: 720 };

const noBrowser: Open = () => Promise.reject(new Error("no Chromium"));
