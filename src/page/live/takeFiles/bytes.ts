/** The bytes that a base64 text stands for. The policy of the page forbids fetching `data:` addresses, so by `atob`. */
export function fromBase64(text: string): Uint8Array<ArrayBuffer> {
  const letters = atob(text);
  const bytes = new Uint8Array(letters.length);
  for (let n = 0; n < bytes.length; n++) bytes[n] = letters.charCodeAt(n);
  return bytes;
}

/** Bytes as base64; in pieces, since a call takes only so many arguments. */
export function toBase64(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let from = 0; from < bytes.length; from += pieceBytes)
    pieces.push(String.fromCharCode(...bytes.subarray(from, from + pieceBytes)));
  return btoa(pieces.join(""));
}
const pieceBytes = 2 ** 14;

/** SHA-256 of a file in hexadecimal. */
export async function sha256Hex(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return [...hash].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
