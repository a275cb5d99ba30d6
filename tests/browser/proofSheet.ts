import type { Rig } from "../../src/rig/model/rig.js";
import { wiringOf } from "../../src/rig/routings/routingsOf.js";
import { toneSettingsOf } from "../../src/work/capture/toneSettings.js";
import { faultsOf } from "../../src/work/proof/faults.js";
import type { Check, CheckKind, FoundFault, ProofReport } from "../../src/work/proof/proofReport.js";
import { proofTone } from "../../src/work/proof/proofTone.js";
import { recordingList } from "../../src/work/proof/recordingList.js";

/** Sheets as long as a rig's may be: every check, with five faults of one kind, or with one of each kind open. */
export function longSheets(rig: Rig, plan: string): readonly ProofReport[] {
  const wiring = wiringOf(rig, plan);
  if (!wiring) throw new Error(plan);
  const families = faultsOf(wiring);
  const all = families.map(
    ({ kind, says, where, wanted }): FoundFault => ({ kind, says, where, wanted, found: wanted }),
  );
  const kinds = [...new Set(all.map(({ kind }) => kind))];
  const figures = families.filter(({ wanted }) => wanted !== null);
  const line = (kind: CheckKind, where: string, value: number | null): Check => ({
    kind,
    where,
    wanted: value,
    found: value,
    within: value,
    passes: null,
  });
  const outputs = ["left output", "right output"];
  const checks = [
    ...outputs.map((where) => line("output", where, null)),
    ...kinds.flatMap((kind) =>
      figures.some((each) => each.kind === kind) ? [] : [line(kind, "there", null)],
    ),
    ...figures.map(({ kind, where, wanted }) => line(kind, where, wanted)),
    ...outputs.flatMap((where) => [line("hum", where, -40), line("hiss", where, -40)]),
  ];
  const quiet = { humDbfs: null, mainsHz: null, hissDbfs: -60 } as const;
  const report = {
    schemaVersion: 1,
    rig: { name: rig.name, playsInto: rig.playsInto },
    plan: { id: plan, label: plan },
    returnsBy: "take",
    tone: toneSettingsOf(proofTone),
    sourceOhms: null,
    built: "faulty",
    sureness: 0.9,
    misfit: 0,
    checks,
    recordings: recordingList(wiring).map(({ offLabels, feed }, n) => ({
      file: `recording-${n + 1}.wav`,
      sha256: "",
      notices: [],
      off: offLabels,
      feed,
      driftPpm: n,
      levelDbfs: [-20, -20],
      silence: [quiet, quiet],
    })),
  } as const;
  const elsewhere = all.filter(({ kind }) => kind === "cable-elsewhere").slice(0, 5);
  const open = kinds.flatMap((kind) => all.filter((each) => each.kind === kind).slice(0, 1));
  return [
    { ...report, faults: elsewhere, notTold: [] },
    { ...report, built: "as-drawn", faults: [], notTold: open.slice(0, 6) },
  ];
}
