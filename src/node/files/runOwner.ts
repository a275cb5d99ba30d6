import { randomUUID } from "node:crypto";
import { readFileSync, readlinkSync } from "node:fs";
import { hostname } from "node:os";
import { codeOf } from "./fileFault.js";

/** Who writes somewhere: one run of the program. */
export interface RunOwner {
  /** No other run has it. */
  readonly id: string;
  readonly pid: number;
  /** Within it a process number means one process at a time. */
  readonly where: string;
  /** When the process began, to tell it from a later one of that number; null where a system does not tell. */
  readonly began: string | null;
  /** For people. */
  readonly host: string;
}

/** How often a run says that it is alive, and after how long one that says nothing is taken to be dead. */
export const beatMs = 5000;
export const silentMs = 30_000;

export const newOwner = (): RunOwner => ({
  id: randomUUID(),
  pid: process.pid,
  where: whereabouts(),
  began: beginningOf(process.pid) ?? null,
  host: hostname(),
});

/** What an owner's file says; null when that is nothing. */
export function ownerIn(text: string): RunOwner | null {
  const value = parsed(text);
  if (typeof value !== "object" || value === null) return null;
  if (!("id" in value && "pid" in value && "where" in value && "began" in value && "host" in value))
    return null;
  const { id, pid, where, began, host } = value;
  if (typeof id !== "string" || typeof pid !== "number" || typeof where !== "string") return null;
  return { id, pid, where, began: typeof began === "string" ? began : null, host: String(host) };
}

/**
 * Whether a run is still there: by its process, where that can be asked for from here, else by when it was last heard.
 * @param silentFor  since it last said that it is alive, in ms
 */
export function isAlive({ pid, where, began }: RunOwner, silentFor: number): boolean {
  if (where === whereabouts()) {
    const now = beginningOf(pid);
    if (now === null || (now !== undefined && now !== began)) return false;
    if (now !== undefined) return true;
  }
  return silentFor < silentMs;
}

/** The start of the machine and the room of process numbers (a container has its own): proc(5) of Linux; else the host. */
function whereabouts(): string {
  try {
    return `${readFileSync("/proc/sys/kernel/random/boot_id", "utf8").trim()} ${readlinkSync("/proc/self/ns/pid")}`;
  } catch {
    return hostname();
  }
}

/** When a process began, in ticks since the start of the machine; null: there is none; undefined: who knows. */
function beginningOf(pid: number): string | null | undefined {
  try {
    process.kill(pid, 0);
  } catch (error) {
    if (codeOf(error) !== "EPERM") return null;
  }
  try {
    // The name of the program, in brackets, may hold anything; the beginning is the 20th word behind it.
    const text = readFileSync(`/proc/${pid}/stat`, "utf8");
    const words = text.slice(text.lastIndexOf(")") + 2).split(" ");
    // What was killed stands there until its parent has noticed.
    return words[0] === "Z" ? null : words[19];
  } catch {
    return undefined;
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
