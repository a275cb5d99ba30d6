import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

/** axe-core, Deque Systems: every rule that it has on by default, and those of WCAG 2.2 AA. */
const axeSource = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
}

/** What axe finds wrong with a page, a sentence a rule. */
export async function axeFindings(page: Page): Promise<string[]> {
  await page.evaluate(axeSource);
  const found: Violation[] = await page.evaluate(
    "axe.run(document, { rules: { 'target-size': { enabled: true } } }).then(({ violations }) => violations)",
  );
  return found.map(
    ({ id, nodes }) =>
      `${id}: ${nodes.map(({ html, failureSummary }) => `${html} ${failureSummary}`).join("; ")}`,
  );
}
