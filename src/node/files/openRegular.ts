import { openSync, statSync } from "node:fs";
import { UserError } from "../../text/userError.js";
import { fileFault } from "./fileFault.js";

/**
 * Opens a file to be read anywhere in it. What is no ordinary file is refused before it is opened: opening a pipe
 * without a writer waits for ever, and a device may have no end.
 *
 * @param what  what is needed, for messages: "a sound file"
 * @returns its handle
 * @throws UserError when it is missing, a folder, a pipe or a device, or not to be read
 */
export function openRegular(file: string, what: string): number {
  try {
    const stat = statSync(file);
    const refuse = (message: string): never => {
      throw new UserError({ file, message });
    };
    if (stat.isDirectory()) refuse(`is a folder, where ${what} is needed. Name a file in it.`);
    if (!stat.isFile())
      refuse(`is a pipe or a device, where ${what} on a disk is needed. Save it to a file first.`);
    return openSync(file, "r");
  } catch (error) {
    throw fileFault(error, file, "read");
  }
}
