import { stepHangMs } from "../../limits.js";

/** One open page, in whichever browser: what the tests of all three need of it. */
export interface Tab {
  /** Runs a function in the page, with what it is given as JSON, and gives what its promise comes to, as JSON. */
  run<Given, Result>(script: (given: Given) => Result | Promise<Result>, given: Given): Promise<Result>;
  /** A key as a hand presses it: a letter, a digit or a space. */
  press(key: string): Promise<void>;
}

/** A browser of this machine. */
export interface AnyBrowser {
  open(file: string): Promise<Tab>;
  close(): Promise<void>;
}

/** A kind of browser and how to start it; null where this machine has none. */
export interface BrowserKind {
  readonly name: string;
  readonly start: (() => Promise<AnyBrowser>) | null;
}

/** What the pages of Playwright and of Puppeteer have in common. */
interface ScriptedPage {
  setDefaultTimeout(ms: number): void;
  goto(address: string): Promise<unknown>;
  // What goes in and out is JSON; both know more of it than that.
  evaluate(script: never, given: never): Promise<unknown>;
  readonly keyboard: { press(key: never): Promise<void> };
}

/** Opens a file in a new page, as a tab. */
export async function openIn(page: ScriptedPage, file: string): Promise<Tab> {
  page.setDefaultTimeout(stepHangMs);
  await page.goto(`file://${file}`);
  return {
    run: (script, given) => page.evaluate(script as never, given as never) as never,
    press: (key) => page.keyboard.press(key as never),
  };
}
