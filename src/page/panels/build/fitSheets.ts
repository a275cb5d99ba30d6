import { el } from "../../widgets/dom.js";

/** Type sizes of a sheet, point, from the usual one down to the least that can be read at arm's length. */
const sizesPt = [10, 9.25, 8.5, 7.75, 7, 6.25, 5.5];

/** Height of A4 on its side, less two margins of 10 mm, which is less than Letter's; a little kept back. CSS px are 1/96 inch. */
const pageHeightPx = ((210 - 20) / 25.4) * 96 * 0.985;

/**
 * Gives each sheet the largest type with which it stays on one page of A4 or Letter. Sheets are tried in a corner that
 * nobody sees, under the rules of print. One that is too long even in the smallest type goes on to a second page.
 */
export function fitSheets(sheets: Element): void {
  const corner = el("div", { class: "trial-print", "aria-hidden": true });
  document.body.append(corner);
  for (const sheet of sheets.children) {
    if (!(sheet instanceof HTMLElement)) continue;
    const tried = sheet.cloneNode(true);
    if (!(tried instanceof HTMLElement)) continue;
    tried.classList.remove("off-screen");
    corner.replaceChildren(tried);
    const fitting = sizesPt.find((size) => {
      tried.style.fontSize = `${size}pt`;
      return tried.offsetHeight <= pageHeightPx;
    });
    sheet.style.setProperty("--print-size", `${fitting ?? sizesPt.at(-1)}pt`);
  }
  corner.remove();
}
