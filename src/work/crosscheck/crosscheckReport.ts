import { fixed } from "../../text/numbers.js";
import { UserError } from "../../text/userError.js";
import type { CrosscheckedRouting } from "./crosscheck.js";

export const crosscheckSchemaVersion = 2;

/** What `crosscheck` knows; `--json` prints it. */
export interface CrosscheckReport {
  readonly schemaVersion: typeof crosscheckSchemaVersion;
  readonly rig: { readonly name: string; readonly playsInto: string };
  readonly take: {
    readonly file: string;
    readonly sha256: string;
    readonly rateHz: number;
    readonly frames: number;
    /** So many frames of it, from the start, were played. */
    readonly playedFrames: number;
    readonly notices: readonly string[];
  };
  /** The implementation of the W3C Web Audio API that was checked against. */
  readonly against: string;
  readonly routings: readonly CrosscheckedRouting[];
}

/** What is told when routings are further apart than they may be, or a return is not as in line; null when none is. */
export function missedFault(report: CrosscheckReport): UserError | null {
  const please = "please report it, with the rig and the take.";
  const faults = report.routings.flatMap(({ id, withinTarget, rmsDbfs, targetDbfs, balance }) => [
    ...(withinTarget === false
      ? [
          {
            message: `${id} differs by ${fixed(rmsDbfs, 1)} dBFS RMS from ${report.against}; it may by ${fixed(targetDbfs, 1)} dBFS. One of the two engines is wrong: ${please}`,
          },
        ]
      : []),
    ...balance
      .filter(({ withinTolerance }) => withinTolerance === false)
      .map(({ unit, hereDb, inLineDb }) => ({
        message: `${id}: ${unit} is ${fixed(hereDb, 2)} dB to the dry sound by ${report.against}, in line ${fixed(inLineDb, 2)} dB. The return's level was chosen wrongly: ${please}`,
      })),
  ]);
  return faults.length > 0 ? new UserError(faults, 1) : null;
}
