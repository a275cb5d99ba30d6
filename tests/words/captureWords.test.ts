import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { withoutOptions } from "../../src/words/captureWords.js";

const folder = "src/work/capture";

/** Whatever a capture may say, read off its sources. */
const said = readdirSync(folder)
  .flatMap((file) => readFileSync(`${folder}/${file}`, "utf8").match(/"[^"\n]*"|`[^`]*`/g) ?? [])
  .map((words) => words.replace(/\$\{[^}]*\}/g, "left"));

test("nothing that a capture says names an option of the command once it is said without them", () => {
  const withOptions = said.filter((words) => /--[a-z]|gapSeconds|use align/.test(words));
  expect(withOptions.length).toBeGreaterThan(4);
  expect(
    withOptions.map(withoutOptions).filter((words) => /--[a-z]|gapSeconds|use align/.test(words)),
  ).toEqual([]);
});

test("the rest of a sentence stays", () => {
  expect(
    withoutOptions(
      "Check the cable, or take the right alone (--channel right). Give the mix (--mix): it is told.",
    ),
  ).toBe("Check the cable, or take the right alone. Give the mix: it is told.");
});
