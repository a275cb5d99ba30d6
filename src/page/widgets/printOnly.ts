/** Prints every sheet on a page of its own, only the sheet on the screen, or what the footswitches do. */
export function printOnly(which: "one" | "all" | "switches"): void {
  const { dataset } = document.documentElement;
  dataset.print = which;
  addEventListener("afterprint", () => delete dataset.print, { once: true });
  print();
}
