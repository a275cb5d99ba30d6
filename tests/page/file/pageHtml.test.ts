import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { escapeHtml, jsonInScript, pageHtml } from "../../../src/page/file/pageHtml.js";

const sly = `</script><!--<script>"'&\u2028`;

test("JSON in a script comes back as it was and holds no <", () => {
  const text = jsonInScript({ [sly]: [sly, 1, null] });
  expect(text).not.toContain("<");
  expect(JSON.parse(text)).toEqual({ [sly]: [sly, 1, null] });
});

/** HTML Living Standard, 13.1.2: in text and quoted attributes, & < > and both quotes are told by references. */
test("text is escaped for elements and for both kinds of attributes", () => {
  expect(escapeHtml(`a<b>&"c"'d'`)).toBe("a&#60;b&#62;&#38;&#34;c&#34;&#39;d&#39;");
});

/** W3C Content Security Policy Level 3, 2.3.1: base64 of the SHA-256 of the script's text. */
test("the policy lets exactly this script run", () => {
  const script = "console.log(1)";
  const hash = createHash("sha256").update(script).digest("base64");
  const html = pageHtml({
    title: sly,
    data: { "a-b": sly },
    script,
    scriptHash: hash,
    plain: sly,
    licences: sly,
  });
  expect(html).toContain(`script-src &#39;sha256-${hash}&#39; &#39;wasm-unsafe-eval&#39;;`);
  expect(html).toContain("default-src &#39;none&#39;");
  expect(html.match(/<script/g)).toHaveLength(2);
  expect(html.match(/<\/script>/g)).toHaveLength(2);
  expect(html).toContain(`<script type="application/json" id="a-b">${jsonInScript(sly)}</script>`);
});

test.each(["x</script>", "x<!--y", "x\r\ny"])(
  "a script that would leave its element is refused: %j",
  (script) => {
    expect(() => pageHtml({ title: "", data: {}, script, scriptHash: "", plain: "", licences: "" })).toThrow(
      /break out/,
    );
  },
);
