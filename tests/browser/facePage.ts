import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll } from "vitest";
import type { Rig } from "../../src/rig/model/rig.js";
import type { FakeFacts } from "../page/fakeBench.js";
import { fakeFacts } from "../page/fakeData.js";
import { fakeHtml } from "../page/fakeHtml.js";
import { pedal, rigOf } from "../rigs.js";
import { temporaryFolder } from "../temporaryFolder.js";

/** Names that would be elements, attributes or the end of a script, were they not text. */
export const markupNames = [
  "<img src=x onerror=alert(1)>",
  "Ledger \" onclick='alert(2)' & <b>bold</b>",
  "</script><script>alert(3)</script>",
];

/** Vibrato and delay in stereo, then a mono delay: small, quick, and with all eight routings. */
const faceRig: Rig = rigOf(
  [
    pedal(
      markupNames[0],
      "vibrato",
      "mono-to-stereo",
      {},
      { price: 120, supply: { volts: 9, milliamps: 40 } },
    ),
    pedal(markupNames[1], "delay", "stereo", { pingPong: true, delayMs: 90 }),
    pedal(markupNames[2], "delay", "mono", { mix: 0.4, delayMs: 60 }, { latencyMs: 1.5 }),
  ],
  { name: "Rig <i>of</i> tests" },
);

export interface FacePage {
  readonly file: string;
  readonly facts: FakeFacts;
}

/** Writes a page with the real face on a fake bench before the tests of a group, and takes it away after them. */
export function useFacePage(rig: Rig = faceRig): () => FacePage {
  let made: FacePage | undefined;
  const folder = temporaryFolder();
  beforeAll(async () => {
    const facts = await fakeFacts(rig, folder);
    const file = join(folder, "face.html");
    writeFileSync(file, await fakeHtml(facts));
    made = { file, facts };
  });
  return () => {
    if (!made) throw new Error("the page is made before the tests");
    return made;
  };
}

/** The live region speaks 60 ms after it was told; a page's timers run in the order of their times, however busy it is. */
export const liveRegionHasSpoken = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 80));

/** What the fake bench was told since the page opened, or since the last look. */
export const newCalls = (): string[] => window.fakeBench.calls.splice(0);
