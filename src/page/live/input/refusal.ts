import type { InputRefusal } from "../../../words/inputWords.js";

/** What the errors of `getUserMedia` mean. Source: W3C Media Capture and Streams, section 10.2, by name. */
const byName: Readonly<Record<string, InputRefusal>> = {
  NotAllowedError: "denied",
  SecurityError: "denied",
  NotFoundError: "no-device",
  OverconstrainedError: "no-device",
  NotReadableError: "busy",
  AbortError: "busy",
};

/** @returns null for what is a bug of ours */
export const refusalOf = (error: unknown): InputRefusal | null =>
  error instanceof DOMException || (error instanceof Error && error.name in byName)
    ? (byName[error.name] ?? null)
    : null;
