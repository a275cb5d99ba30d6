import { createHash } from "node:crypto";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import type { FakeFacts } from "./fakeBench.js";

const settings: string = "../../src/build/pageBundle.mjs";
const { pageBundle } = await import(/* @vite-ignore */ settings);

/** A page with the real face on a fake bench, as one file, under the policy that the real page has. */
export async function fakeHtml(facts: FakeFacts): Promise<string> {
  const { outputFiles = [] } = await build({
    entryPoints: [fileURLToPath(new URL("fakePage.ts", import.meta.url))],
    ...pageBundle,
    write: false,
    logLevel: "error",
  });
  const script = outputFiles[0].text;
  const hash = createHash("sha256").update(script).digest("base64");
  const policy =
    `default-src 'none'; script-src 'sha256-${hash}'; style-src 'unsafe-inline'; img-src data: blob:; ` +
    "media-src blob: data:; base-uri 'none'; form-action 'none'";
  const json = JSON.stringify(facts).replaceAll("<", "\\u003c");
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Fake bench</title>
<body>
<div id="root"></div>
<script type="application/json" id="facts">${json}</script>
<script>${script}</script>
</body>
</html>
`;
}
