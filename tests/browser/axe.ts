import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

/** axe-core, Deque Systems: every rule that it has on by default, and those of WCAG 2.2 AA. */
const axeSource = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
}

/**
 * What axe finds wrong with a page, a sentence a rule: by all rules in the light, and in the dark by those of colour, since
 * a dark page differs in its style sheet's colours alone. `within` names the part that is new, where a test has looked at
 * the rest of the page already.
 */
export async function axeFindings(page: Page, within = "html"): Promise<string[]> {
  await page.evaluate(axeSource);
  const found = async (colorScheme: "light" | "dark", rules: string) => {
    // Still, so that no colour is looked at on its way.
    await page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
    const violations: Violation[] = await page.evaluate(
      `axe.run(${JSON.stringify(within)}, ${rules}).then(({ violations }) => violations)`,
    );
    await page.emulateMedia({ colorScheme: null, reducedMotion: null });
    return violations.map(
      ({ id, nodes }) =>
        `${colorScheme}, ${id}: ${nodes.map(({ html, failureSummary }) => `${html} ${failureSummary}`).join("; ")}`,
    );
  };
  return [
    ...(await found("light", "{ rules: { 'target-size': { enabled: true } } }")),
    ...(await found("dark", "{ runOnly: ['color-contrast', 'link-in-text-block'] }")),
  ];
}
