/** A page to be written, by the command line or by a page itself: scripts as text, data by the id of the element that holds it. */
export interface PageParts {
  readonly title: string;
  /** Plain data; each value stands in a script element of its own as JSON. */
  readonly data: Readonly<Record<string, unknown>>;
  /** The script that runs, as one classic script. */
  readonly script: string;
  /** Its SHA-256, base64. Source: W3C Content Security Policy Level 3, hash-source. */
  readonly scriptHash: string;
  /** What stands there where no script runs, as in the preview of a mail: plain text. */
  readonly plain: string;
  /** Notices of the libraries in the scripts. */
  readonly licences: string;
}

/**
 * One HTML file that needs nothing beside it. Its policy lets it run its own script and nothing else: no network, no
 * other script, no inline handler, no evaluated text but WebAssembly.
 * @throws Error when the script would end its own element
 */
export function pageHtml({ title, data, script, scriptHash, plain, licences }: PageParts): string {
  // Spelt so that this file, which travels in the page's script too, does not break out of it.
  if (/<\/script|<!-{2}|\r/i.test(script))
    throw new Error("pageHtml: the script would break out of its element");
  const policy = [
    "default-src 'none'",
    `script-src 'sha256-${scriptHash}' 'wasm-unsafe-eval'`,
    "worker-src blob:",
    "style-src 'unsafe-inline'",
    "img-src data: blob:",
    "media-src blob: data:",
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
  const holders = Object.entries(data).map(
    ([id, value]) =>
      `<script type="application/json" id="${escapeHtml(id)}">${jsonInScript(value)}</script>\n`,
  );
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${escapeHtml(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<title>${escapeHtml(title)}</title>
</head>
<body>
<div id="bench"></div>
<noscript>
<h1>${escapeHtml(title)}</h1>
<p>This page renders and plays by itself where its script may run. In short:</p>
<pre style="white-space: pre-wrap; overflow-x: auto">${escapeHtml(plain)}</pre>
</noscript>
<footer class="licences"><details><summary>Licences of the libraries in this page</summary>
<pre>${escapeHtml(licences)}</pre></details></footer>
${holders.join("")}<script>${script}</script>
</body>
</html>
`;
}

/** Text for HTML: in an element or in a quoted attribute. */
export const escapeHtml = (text: string): string =>
  text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);

/** JSON that cannot end a script element or open a comment in it: `<` as `\\u003c`. */
export const jsonInScript = (value: unknown): string => JSON.stringify(value).replaceAll("<", "\\u003c");
