// Licences of the libraries whose code stands in the page's scripts, as one text with every notice in full, once.
import { existsSync, readdirSync, readFileSync } from "node:fs";

/** Licences that let their code stand in a page: a notice is all that they ask. */
const permitted = ["MIT", "ISC", "BSD-2-Clause", "BSD-3-Clause", "0BSD", "Apache-2.0"];

/**
 * @param inputs  files that a bundler read, relative to `root`
 * @throws Error for a library without a licence text, or under a licence that asks for more than a notice
 */
export function licencesOf(inputs, root) {
  const names = [...new Set(inputs.flatMap((file) => packageOf(file) ?? []))].sort();
  const namesOf = new Map();
  for (const name of names) {
    const folder = `${root}node_modules/${name}/`;
    const { version, license } = JSON.parse(readFileSync(`${folder}package.json`, "utf8"));
    if (!permitted.includes(license)) throw new Error(`${name} is under ${license}: it may not be bundled`);
    const notice = noticeIn(folder, name);
    namesOf.set(notice, [...(namesOf.get(notice) ?? []), `${name} ${version} (${license})`]);
  }
  const parts = [...namesOf].map(([notice, sharers]) => `${sharers.join("\n")}\n\n${notice}\n`);
  return parts.join(`\n${"-".repeat(72)}\n\n`);
}

const packageOf = (file) => /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(file)?.[1];

function noticeIn(folder, name) {
  const file = readdirSync(folder).find((entry) => /^(licen[cs]e|copying)/i.test(entry));
  if (file) return readFileSync(`${folder}${file}`, "utf8").trim();
  const readme = existsSync(`${folder}README.md`) ? readFileSync(`${folder}README.md`, "utf8") : "";
  const section = /^#+ *licen[cs]e[^\n]*\n([\s\S]*?)(?=^#|$(?![\s\S]))/im.exec(readme)?.[1].trim();
  if (!section) throw new Error(`${name} has no licence text`);
  return section;
}
