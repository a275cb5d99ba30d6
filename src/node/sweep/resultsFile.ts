import { closeSync, existsSync, ftruncateSync, openSync, readFileSync, writeSync } from "node:fs";
import type { Figure } from "../../sound/measure/measure.js";
import { crc32 } from "../../text/crc32.js";
import { UserError } from "../../text/userError.js";
import { figureNames } from "../../work/sweep/figures.js";
import { type ResultsHead, resultsSchemaVersion } from "../../work/sweep/resultsHead.js";
import { fileFault } from "../files/fileFault.js";
import { pauses } from "../threads/pauses.js";
import { type ByteLine, byteLines } from "./byteLines.js";
import { differencesOf } from "./inputs.js";

/** A result without its figures. */
export interface ResultKey {
  readonly setting: number;
  readonly routing: string;
  readonly draw: number;
  readonly by: "algebra" | "rendering";
}

export const resultLine = ({ setting, routing, draw, by }: ResultKey, figures: readonly Figure[]): string =>
  sealed({ setting, routing, draw, by, figures });

/** Room that the lines of so many results need at the most. */
export const roomFor = (results: number): number =>
  results * (mostKeyBytes + mostFigureBytes * figureNames.length);

/** Of a number in JSON: sign, 17 digits, point, exponent and comma. Of the rest of a line: its words, and a routing. */
const mostFigureBytes = 26;
const mostKeyBytes = 256;

/** Closes a unit; `results` are the lines before it that are its own. */
const unitLine = (unit: number, results: number): string => sealed({ unit, results });

const renderedLine = (setting: number, routing: string, figures: readonly Figure[]): string =>
  sealed({ rendered: { setting, routing }, figures });

/** A line of the file: JSON whose first entry is the CRC-32 of all behind that entry, in hexadecimal. */
function sealed(value: object): string {
  const rest = JSON.stringify(value).slice(1);
  return `${sealBefore}${sealOf(Buffer.from(rest))}${sealBehind}${rest}\n`;
}

const sealBefore = '{"crc32":"';
const sealBehind = '",';
const sealLength = sealBefore.length + 8 + sealBehind.length;

const sealOf = (bytes: Uint8Array): string => crc32(bytes).toString(16).padStart(8, "0");

/** False for a line that is not as it was written. */
const isSealed = (line: Buffer): boolean =>
  line.toString("latin1", 0, sealLength) === `${sealBefore}${sealOf(line.subarray(sealLength))}${sealBehind}`;

/** One line of a results file, understood but for its figures. */
export type ResultsEntry =
  | { readonly kind: "result"; readonly key: ResultKey }
  | { readonly kind: "unit"; readonly unit: number; readonly results: number }
  | { readonly kind: "rendered"; readonly setting: number; readonly routing: string };

/** An entry and where it stands; `bytes` are valid until the next one is asked for. */
export interface PlacedEntry extends ByteLine {
  readonly entry: ResultsEntry;
}

/** @throws UserError when the file does not begin like one of a sweep */
export function readHead(path: string): ResultsHead {
  for (const { bytes } of byteLines(path)) {
    const value = parsed(bytes.toString("utf8"));
    if (isHead(value) && isSealed(bytes)) return value;
    break;
  }
  throw new UserError({
    file: path,
    message: "is no results file of a sweep (.jsonl), or of another version.",
  });
}

/** True for a results file of this or another version, whole or not. */
function isResultsFile(path: string): boolean {
  for (const { bytes } of byteLines(path)) {
    const value = parsed(bytes.toString("utf8"));
    return isMap(value) && typeof value.splitsumSweep === "number";
  }
  return isBarelyBegun(path);
}

/** True for a file that a run, killed or out of disk, left before its first line was whole: there is nothing in it. */
function isBarelyBegun(path: string): boolean {
  for (const _ of byteLines(path)) return false;
  const begin = guarded(path, () => readFileSync(path, "latin1")).slice(0, sealBefore.length);
  return sealBefore.startsWith(begin);
}

/** Every entry behind the head, in order. @throws UserError for a line that is none, and where lines are missing */
export function* entriesOf(path: string): Generator<PlacedEntry, void> {
  let line = 0;
  let good = 1;
  let results = 0;
  const refuse = (what: string): never => {
    const message = `${what}: the file is damaged. Cut it off behind line ${good} and go on by sweep --resume, or begin anew by --force.`;
    throw new UserError({ file: path, line, message });
  };
  for (const placed of byteLines(path)) {
    if (line++ === 0) continue;
    const entry = isSealed(placed.bytes) ? readEntry(placed.bytes) : null;
    if (entry === null) return refuse("is not as a sweep wrote it");
    if (entry.kind === "result") results++;
    else {
      if (entry.kind === "unit" && entry.results !== results)
        refuse(`closes ${entry.results} results, and there are ${results}`);
      results = 0;
      good = line;
    }
    yield { ...placed, entry };
  }
}

const beforeFigures = ',"figures":[';

/** What a line says, its figures left unread; null when it is none. */
function readEntry(line: Buffer): ResultsEntry | null {
  const at = line.indexOf(beforeFigures);
  if (at < 0) return entryOf(parsed(line.toString("utf8")));
  const isWhole = line[line.length - 2] === closeList && line[line.length - 1] === closeMap;
  return isWhole ? entryOf(parsed(`${line.toString("utf8", 0, at)}}`)) : null;
}

/** The list of a line's figures, as JSON. */
export const figuresText = (line: Buffer): string =>
  line.toString("utf8", line.indexOf(beforeFigures) + beforeFigures.length - 1, line.length - 1);

/** All figures of a line. */
export function figuresIn(text: string): readonly Figure[] {
  const value: unknown = JSON.parse(text);
  return Array.isArray(value) ? value : [];
}

/** Some figures of a line, by their places in rising order, without reading the others; NaN: null. */
export function pickFigures(
  line: Buffer,
  places: readonly number[],
  visit: (n: number, figure: number) => void,
) {
  let from = line.indexOf(beforeFigures) + beforeFigures.length;
  let place = 0;
  for (let n = 0; n < places.length; n++) {
    for (; place < places[n]; place++) from = line.indexOf(comma, from) + 1;
    const next = line.indexOf(comma, from);
    const text = line.toString("latin1", from, next < 0 ? line.length - 2 : next);
    visit(n, text === "null" ? Number.NaN : Number(text));
  }
}

const lineEnd = 10;
const comma = 44;
const closeList = 93;
const closeMap = 125;

/** @throws UserError when the file is there and neither resumed nor forced, or is none of a sweep */
export function refuseResults(path: string, { resume, force }: { resume: boolean; force: boolean }): void {
  if (resume || !existsSync(path)) return;
  const refuse = (message: string): never => {
    throw new UserError({ file: path, message: `${message}; nothing was written.` });
  };
  if (!force)
    refuse("is there already. Go on with it by --resume, begin anew by --force, or name another folder");
  if (!isResultsFile(path))
    refuse(
      "is no results file of a sweep, and --force replaces nothing else. Move it away or name another folder",
    );
}

/** A results file that is being written. */
export class ResultsWriter {
  readonly #path: string;
  readonly #file: number;
  /** Units that an earlier run has done. */
  readonly done: ReadonlySet<number>;

  private constructor(path: string, file: number, done: ReadonlySet<number>) {
    this.#path = path;
    this.#file = file;
    this.done = done;
  }

  /**
   * @param resume  go on with the file that is there, if one is; what its run did not complete is cut off
   * @throws UserError when the file is there and neither resumed nor forced, or is of other inputs
   */
  static async open(
    path: string,
    head: ResultsHead,
    how: { resume: boolean; force: boolean },
  ): Promise<ResultsWriter> {
    if (existsSync(path) && how.resume && !isBarelyBegun(path)) return ResultsWriter.#goOn(path, head);
    refuseResults(path, how);
    const file = guarded(path, () => openSync(path, "w"));
    const writer = new ResultsWriter(path, file, new Set());
    writer.#write(Buffer.from(sealed(head)));
    return writer;
  }

  static async #goOn(path: string, head: ResultsHead): Promise<ResultsWriter> {
    const there = readHead(path);
    refuseOther(path, head, there);
    const { done, bytes } = await closedPart(path);
    const file = guarded(path, () => openSync(path, "r+"));
    guarded(path, () => ftruncateSync(file, bytes));
    const writer = new ResultsWriter(path, file, done);
    writer.#at = bytes;
    return writer;
  }

  #at = 0;

  /** Adds a unit's results, whole or, if the program is killed meanwhile, not at all. */
  addUnit(unit: number, lines: Uint8Array): void {
    const results = lines.reduce((sum, byte) => sum + (byte === lineEnd ? 1 : 0), 0);
    this.#write(lines);
    this.#write(Buffer.from(unitLine(unit, results)));
  }

  /** Adds what a setting that was rendered by itself gave. */
  addRendered(setting: number, routing: string, figures: readonly Figure[]): void {
    this.#write(Buffer.from(renderedLine(setting, routing, figures)));
  }

  close(): void {
    closeSync(this.#file);
  }

  #write(bytes: Uint8Array): void {
    guarded(this.#path, () => {
      for (let done = 0; done < bytes.length; ) {
        const written = writeSync(this.#file, bytes, done, bytes.length - done, this.#at);
        done += written;
        this.#at += written;
      }
    });
  }
}

/** Units that are closed, and how far the file is good: up to the last closed unit or rendered setting. */
async function closedPart(path: string): Promise<{ done: ReadonlySet<number>; bytes: number }> {
  const pause = pauses();
  const done = new Set<number>();
  let bytes = 0;
  for (const { next } of byteLines(path)) {
    bytes = next;
    break;
  }
  for (const { entry, next } of entriesOf(path)) {
    const due = pause();
    if (due) await due;
    if (entry.kind === "result") continue;
    if (entry.kind === "unit") done.add(entry.unit);
    bytes = next;
  }
  return { done, bytes };
}

function refuseOther(path: string, ours: ResultsHead, theirs: ResultsHead): void {
  const differences = differencesOf(ours.inputs, theirs.inputs);
  if (JSON.stringify(ours.shard) !== JSON.stringify(theirs.shard)) differences.push("the part of the sweep");
  const isSame = differences.length === 0;
  if (isSame && JSON.stringify(ours.wishes) !== JSON.stringify(theirs.wishes)) {
    const message =
      "was begun with other wishes. Go on with those, then rank anew: splitsum merge FILE --want WISH; nothing was written.";
    throw new UserError({ file: path, message });
  }
  if (isSame) return;
  const message = `is of another sweep: ${differences.join(", ")} differs. Use --force to begin anew, or name another folder; nothing was written.`;
  throw new UserError({ file: path, message });
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

const isMap = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** True for what this version writes; its parts are trusted as their fingerprints are. */
function isHead(value: unknown): value is ResultsHead {
  if (!isMap(value) || value.splitsumSweep !== resultsSchemaVersion) return false;
  const { rig, take, plan, inputs, wishes, labels } = value;
  return [rig, take, plan, inputs, wishes, labels].every(isMap) && Array.isArray(value.figureNames);
}

function entryOf(value: unknown): ResultsEntry | null {
  if (!isMap(value)) return null;
  if (typeof value.unit === "number" && typeof value.results === "number")
    return { kind: "unit", unit: value.unit, results: value.results };
  if (isMap(value.rendered)) {
    const { setting, routing } = value.rendered;
    if (typeof setting !== "number" || typeof routing !== "string") return null;
    return { kind: "rendered", setting, routing };
  }
  const { setting, routing, draw, by } = value;
  if (typeof setting !== "number" || typeof routing !== "string" || typeof draw !== "number") return null;
  if (by !== "algebra" && by !== "rendering") return null;
  return { kind: "result", key: { setting, routing, draw, by } };
}

function guarded<T>(path: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw fileFault(error, path, "write");
  }
}
