import { afterAll, beforeAll, describe, expect } from "vitest";
import type { AnyBrowser, BrowserKind } from "./tab.js";

/**
 * Tests in one kind of browser, started once for all of them. Where there is none they are left out, and the name of the
 * group says so; where browsers must be there, they fail.
 */
export function describeIn(
  { name, start }: BrowserKind,
  what: string,
  tests: (started: () => Promise<AnyBrowser>) => void,
): void {
  const isLeftOut = start === null && process.env.SPLITSUM_NEEDS_BROWSERS === undefined;
  const group = `${what} in ${name}`;
  describe.skipIf(isLeftOut)(isLeftOut ? `${group}: LEFT OUT, none found on this machine` : group, () => {
    let browser: Promise<AnyBrowser> | undefined;
    beforeAll(async () => {
      if (start === null) expect.fail(`no ${name} found; DEVELOPERS.md says which is needed`);
      browser = start();
      await browser;
    });
    afterAll(async () => (await browser)?.close());
    tests(() => browser ?? Promise.reject(new Error("a browser is asked for before its tests")));
  });
}
