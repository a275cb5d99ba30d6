import type { Page } from "playwright-core";

/** Presses Tab, or another key, until what has the focus is called so, or begins so. @throws Error where it is not reached */
export async function tabTo(page: Page, name: string, key = "Tab"): Promise<void> {
  const passed: string[] = [];
  while (passed.length < 200) {
    await page.keyboard.press(key);
    const here = await page.evaluate(nameOfFocused);
    if (here.startsWith(name)) return;
    passed.push(here);
  }
  throw new Error(`${name} is not reached by ${key}, past ${passed.slice(0, 8).join(" | ")}`);
}

/** As a screen reader would begin. */
function nameOfFocused(): string {
  const node = document.activeElement;
  const isField =
    node instanceof HTMLInputElement ||
    node instanceof HTMLSelectElement ||
    node instanceof HTMLTextAreaElement;
  const label = isField ? node.labels?.[0] : null;
  return node?.getAttribute("aria-label") ?? label?.textContent ?? node?.textContent ?? "";
}
