import { el } from "./dom.js";

/** Hands a file to the person. */
export function download(contents: Blob, fileName: string): void {
  const address = URL.createObjectURL(contents);
  const link = el("a", { href: address, download: fileName });
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

export const textFile = (text: string, type: string): Blob =>
  new Blob([text], { type: `${type};charset=utf-8` });
