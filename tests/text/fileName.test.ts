import fc from "fast-check";
import { expect, test } from "vitest";
import { safeFileName, uniqueFileNames } from "../../src/text/fileName.js";

test.each([
  ["Ferry Road baritone", "ferry-road-baritone"],
  ["../../etc/passwd", "etc-passwd"],
  ['say "cheese"; rm -rf $HOME', "say-cheese-rm-rf-home"],
  ["C:\\takes\\verse.wav", "c-takes-verse-wav"],
  ["  .hidden.  ", "hidden"],
  ["tab\there\nand\u0000there", "tab-here-and-there"],
  ["Übergröße", "übergröße"],
  ["サンプル 1", "サンプル-1"],
  ["abc\u202egnp.exe", "abc-gnp-exe"],
  ["👻", "unnamed"],
  ["", "unnamed"],
  ["CON", "con-file"],
  ["Lpt1", "lpt1-file"],
])("%j becomes %j", (name, expected) => {
  expect(safeFileName(name)).toBe(expected);
});

test("composed and decomposed letters are one name", () => {
  expect(safeFileName("Cafe\u0301")).toBe(safeFileName("Caf\u00e9"));
});

test("300 letters are cut between letters", () => {
  expect(safeFileName("a".repeat(300))).toBe("a".repeat(120));
  expect(safeFileName("ж".repeat(300))).toBe("ж".repeat(60));
});

test("names that would collide are numbered, and stay clear of names that are numbered already", () => {
  expect(uniqueFileNames(["A/B", "a b", "a-b-2", "A B"])).toEqual(["a-b", "a-b-3", "a-b-2", "a-b-4"]);
  const long = uniqueFileNames(["x".repeat(300), "x".repeat(299)]);
  expect(long).toEqual(["x".repeat(120), `${"x".repeat(118)}-2`]);
});

/** 255 bytes: the longest name of ext4, APFS (in letters) and NTFS (in letters); common practice, no source. */
test("any names give safe names, all different on a disk that takes no notice of case", () => {
  fc.assert(
    fc.property(fc.array(fc.string({ unit: "binary", maxLength: 400 }), { maxLength: 12 }), (names) => {
      const files = uniqueFileNames(names);
      expect(files).toHaveLength(names.length);
      expect(new Set(files.map((file) => file.toLowerCase().normalize("NFD"))).size).toBe(names.length);
      for (const file of files) {
        expect(file).toMatch(/^[\p{L}\p{N}_][\p{L}\p{M}\p{N}_-]*$/u);
        expect(Buffer.byteLength(`${file}.mono.wav`)).toBeLessThanOrEqual(255);
      }
    }),
  );
});
