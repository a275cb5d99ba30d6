import { fixed } from "../text/numbers.js";
import { ended } from "../text/words.js";
import type { ProofReport } from "../work/proof/proofReport.js";
import { benchCautions } from "./benchCautions.js";
import { basisWords, checkWords, faultWords, notToldWords, verdictWords } from "./proofWords.js";
import { recordingWords } from "./recordingWords.js";

/** The sheet of a proof as one page, to print and hand over with the board. It needs nothing beside it. */
export function proofHtml(report: ProofReport): string {
  const { rig, plan, faults, checks, recordings, built } = report;
  const untold = notToldWords(report);
  const notices = recordings.flatMap(({ file, notices: own }) =>
    own.map((notice) => `${file}: ${ended(notice)}`),
  );
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${text(`Proof of ${rig.name}, ${plan.id}`)}</title>
<style>${style}</style>
</head>
<body>
<main>
<header>
<h1>${text(rig.name)}</h1>
<p>${text(`${plan.label} (${plan.id})`)}</p>
</header>
<p class="verdict ${built}">${text(verdictWords(report))}</p>
${faults.length > 0 ? list("faults", faultWords(report)) : ""}
<div class="scroll"><table>
<caption>Checks</caption>
<thead><tr><th scope="col">Check</th><th scope="col">Wanted</th><th scope="col">Found</th><th scope="col">Passes</th></tr></thead>
<tbody>
${checks
  .map((check) => checkWords(check, faults.length))
  .map(
    ({ what, wanted, found, passes }) =>
      `<tr class="${passes === "NO" ? "fails" : passes === "yes" ? "passes" : "open"}"><th scope="row">${text(what)}</th><td>${text(wanted)}</td><td>${text(found)}</td><td>${text(passes)}</td></tr>`,
  )
  .join("\n")}
</tbody>
</table></div>
${untold.length > 0 ? `<section><h2>These recordings do not tell</h2>${list("untold", untold)}</section>` : ""}
<section><h2>Recordings</h2>
<ol>${recordings
    .map(
      ({ file, off, feed, levelDbfs }) =>
        `<li>${text(`${file}: ${recordingWords({ offLabels: off, feed })}, ${levelDbfs.map((level) => fixed(level, 1)).join(" / ")} dBFS`)}</li>`,
    )
    .join("")}</ol>
${list("basis", [...notices, ...basisWords(report)])}</section>
<section><h2>Mind, before a tone sounds again</h2>${list("cautions", benchCautions)}</section>
<p class="signed">Built by: <span></span> Proven by: <span></span> Date: <span></span></p>
</main>
</body>
</html>
`;
}

const list = (name: string, lines: readonly string[]): string =>
  `<ul class="${name}">${lines.map((line) => `<li>${text(line)}</li>`).join("")}</ul>`;

const text = (words: string): string => words.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);

const style = `
:root { color-scheme: light; }
body { margin: 0; background: #fff; color: #1c1b19; font: 15px/1.45 Georgia, "Times New Roman", serif; }
main { max-width: 46rem; margin: 0 auto; padding: 1.5rem 1.25rem 3rem; }
h1 { font-size: 1.5rem; margin: 0; }
header p { margin: 0.1rem 0 1rem; color: #55514a; }
h2 { font-size: 1rem; margin: 1.3rem 0 0.3rem; }
.verdict { border-left: 4px solid #6b675f; padding: 0.4rem 0.8rem; font-size: 1.1rem; margin: 0 0 0.6rem; }
.verdict.as-drawn { border-color: #2f6b3a; }
.verdict.faulty { border-color: #a3261b; }
.faults { font-weight: bold; }
ul, ol { margin: 0.2rem 0; padding-left: 1.3rem; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
caption { text-align: left; font-weight: bold; padding: 0.8rem 0 0.2rem; }
th, td { text-align: left; vertical-align: top; padding: 0.22rem 0.8rem 0.22rem 0; border-bottom: 1px solid #d8d4cc; font-weight: normal; overflow-wrap: break-word; }
thead th { color: #55514a; border-bottom-color: #8a857b; }
tbody th { width: 40%; }
td:nth-child(2), thead th:nth-child(2) { white-space: nowrap; width: 20%; }
td:last-child, thead th:last-child { white-space: nowrap; padding-right: 0; }
.fails td:last-child, .fails td:nth-child(3) { color: #8f1d13; font-weight: bold; }
.open td:last-child { color: #55514a; font-style: italic; }
.basis, .cautions, .untold { font-size: 0.9rem; color: #3b3833; }
.signed { margin-top: 1.6rem; display: flex; flex-wrap: wrap; gap: 0.3rem 1rem; font-size: 0.9rem; }
.signed span { display: inline-block; min-width: 8rem; border-bottom: 1px solid #8a857b; }
@page { margin: 10mm; }
@media print {
  body { font-size: 8.5pt; line-height: 1.2; }
  main { max-width: none; padding: 0; }
  header p { margin-bottom: 0.4rem; }
  .verdict { font-size: 12pt; }
  h2 { margin-top: 0.5rem; }
  th, td { padding-top: 0.06rem; padding-bottom: 0.06rem; }
  caption { padding-top: 0.2rem; }
  ol { columns: 2; }
  .signed { margin-top: 0.7rem; }
  .basis, .cautions, .untold { font-size: 7.5pt; }
  tr { break-inside: avoid; }
}
`;
