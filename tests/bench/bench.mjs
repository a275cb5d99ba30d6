// Speed, as ratios in one run. `npm run bench` prints the short ones; `npm run bench -- chorus reverbs` some. Never a test.
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { benchChorus } from "./chorus.mjs";
import { benchMeasures } from "./measures.mjs";
import { benchPage } from "./page.mjs";
import { benchReverbs } from "./reverbs.mjs";
import { benchSweep } from "./sweep.mjs";

const benches = {
  chorus: benchChorus,
  reverbs: benchReverbs,
  measures: benchMeasures,
  compare: () => [compareLine(60, "wanted 300 s and under 600 MB")],
  page: benchPage,
  sweep: benchSweep,
  long: () => [60, 600, 3600].map((length) => compareLine(length, "wanted under 1000 MB")),
};

const wanted = process.argv.slice(2);
for (const [name, bench] of Object.entries(benches)) {
  if (wanted.length > 0 ? !wanted.includes(name) : ["page", "sweep", "long"].includes(name)) continue;
  console.log((await bench()).join("\n"));
}
process.exit(0);

function compareLine(lengthSeconds, wish) {
  // Two folders up is the project, from here and from where a run of it is bundled.
  const inProject = (path) => fileURLToPath(new URL(`../../${path}`, import.meta.url));
  const words = [inProject("src/build/run.mjs"), inProject("tests/bench/compare.mjs"), String(lengthSeconds)];
  const { seconds, routedPerSecond, megabytes } = JSON.parse(
    execFileSync(process.execPath, words, { encoding: "utf8" }),
  );
  return `compare, demo rig, ${lengthSeconds} s: ${seconds.toFixed(1)} s, ${routedPerSecond.toFixed(0)} s of routed audio a second, peak ${megabytes.toFixed(0)} MB (${wish})`;
}
