import { UserError } from "../../text/userError.js";

/**
 * Turns what the system says about a file into one line that a person can act on.
 *
 * @param error  what was thrown
 * @param file   the file's name, as the person wrote it
 * @returns a `UserError` for a known system code (status 2 when reading, 1 when the writing failed); anything else
 *   is given back as it came, since it is a bug. A file in a folder that is still being written (`partFolderOf`) is
 *   called by the name that it was to have
 * Source: error codes of POSIX.1-2017, errno.h.
 */
export function fileFault(error: unknown, file: string, doing: "read" | "write"): unknown {
  const code = codeOf(error);
  const says = code === null ? undefined : meanings[code];
  if (says === undefined) return error;
  return new UserError(
    {
      file: file
        .replace(/\.([^/\\]+)\.splitsum-part(?=[/\\])/, "$1")
        .replace(/[/\\]\.splitsum-part(?=[/\\])/, ""),
      message: doing === "write" ? `${says}; it was not written.` : `${says}.`,
    },
    doing === "read" ? 2 : 1,
  );
}

/** The system's code for what went wrong, such as `ENOENT`; null when there is none. */
export function codeOf(error: unknown): string | null {
  return error instanceof Error && "code" in error && typeof error.code === "string" ? error.code : null;
}

const meanings: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file or folder. Check the name",
  ENOTDIR: "a part of this path is a file, not a folder. Check the name",
  EEXIST: "a file of this name is in the way. Name another place",
  EISDIR: "is a folder, where a file is needed. Name a file",
  EACCES: "this account may not use it. Change its permissions or name another place",
  EPERM: "the system does not permit it. Change its permissions or name another place",
  EROFS: "the disk is read-only. Name another place",
  ENOSPC: "the disk is full. Make room or name another place",
  EDQUOT: "this account's share of the disk is used up. Make room or name another place",
  EFBIG: "the file would be larger than this disk's files can be. Name another place",
  ENAMETOOLONG: "the name is too long for this disk. Name a shorter one",
  ELOOP: "its links lead round in a circle. Mend the links",
  EMFILE: "too many files are open. Close some programs",
  EBUSY: "another program holds it. Close that program",
  EIO: "the disk reports a fault. Check the disk",
};
