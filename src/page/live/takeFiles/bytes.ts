/** The bytes that a base64 text stands for. The policy of the page forbids fetching `data:` addresses, so by `atob`. */
export function fromBase64(text: string): Uint8Array<ArrayBuffer> {
  const letters = atob(text);
  const bytes = new Uint8Array(letters.length);
  for (let n = 0; n < bytes.length; n++) bytes[n] = letters.charCodeAt(n);
  return bytes;
}

/** SHA-256 of a file in hexadecimal. */
export async function sha256Hex(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return [...hash].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
