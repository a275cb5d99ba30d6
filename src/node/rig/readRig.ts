import { open } from "node:fs/promises";
import { parseRig } from "../../rig/file/parseRig.js";
import type { Rig } from "../../rig/model/rig.js";
import { UserError } from "../../text/userError.js";
import { fileFault } from "../files/fileFault.js";

/** Larger than any rig: 64 pedals with every key written take about 40 kB. */
export const mostRigBytes = 1_000_000;

/**
 * Reads a rig file.
 *
 * @param path  its path; "-" is standard input
 * @throws UserError when there is no such file, when it is no text in UTF-8, or with every fault of the rig
 * @example
 * ```ts
 * import { readRig } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * console.log(rig.pedals.map(({ name }) => name));
 * ```
 */
export async function readRig(path: string): Promise<Rig> {
  return parseRig(await readRigText(path), fileOf(path));
}

/** The text of a rig file, not read any further. @throws UserError */
export async function readRigText(path: string): Promise<string> {
  const file = fileOf(path);
  return decodeText(await bytesOf(path, file), file);
}

const fileOf = (path: string): string => (path === "-" ? "standard input" : path);

async function bytesOf(path: string, file: string): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  let length = 0;
  try {
    const stream: AsyncIterable<Uint8Array> =
      path === "-" ? process.stdin : (await open(path)).createReadStream();
    for await (const part of stream) {
      parts.push(part);
      length += part.length;
      if (length > mostRigBytes) break;
    }
  } catch (error) {
    throw fileFault(error, file, "read");
  }
  if (length <= mostRigBytes) return Buffer.concat(parts);
  const message = `is larger than 1 MB; a rig file is a few kB of YAML. Check that this is the right file.`;
  throw new UserError({ file, message });
}

/** UTF-8 text, its byte order mark dropped. */
function decodeText(bytes: Uint8Array, file: string): string {
  const start = (bytes[0] ?? 0) * 256 + (bytes[1] ?? 0);
  if (start === 0xfffe || start === 0xfeff) {
    throw new UserError({ file, message: "is text in UTF-16; a rig file is UTF-8. Save it as UTF-8." });
  }
  const zero = bytes.indexOf(0);
  const message = "is not text; a rig file is YAML, text in UTF-8. Check that this is the right file.";
  if (zero >= 0) throw new UserError({ file, message });
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new UserError({
      file,
      line: brokenLine(bytes),
      message: "holds bytes that are not UTF-8. Save it as UTF-8.",
    });
  }
}

/** The line of the first byte that is not UTF-8. */
function brokenLine(bytes: Uint8Array): number {
  const text = new TextDecoder("utf-8").decode(bytes);
  return text.slice(0, Math.max(0, text.indexOf("\ufffd"))).split("\n").length;
}
