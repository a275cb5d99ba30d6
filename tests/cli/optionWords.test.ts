import { InvalidArgumentError } from "commander";
import { expect, test } from "vitest";
import { listWord, numberWord } from "../../src/cli/optionWords.js";

test("numbers within their bounds are read, all else is told the bounds", () => {
  const seconds = numberWord(0, 600, "seconds");
  expect(["0", "600", "2.5", " 3 "].map(seconds)).toEqual([0, 600, 2.5, 3]);
  for (const text of ["", " ", "-1", "601", "2s", "NaN", "Infinity", "two"]) {
    expect(() => seconds(text), text).toThrow(InvalidArgumentError);
  }
  expect(() => seconds("2s")).toThrow("Write a number of seconds from 0 to 600.");
});

test("lists are words with commas between them, each once", () => {
  expect(listWord("parallel, summed,parallel")).toEqual(["parallel", "summed"]);
  expect(() => listWord("a,,b")).toThrow(InvalidArgumentError);
  expect(() => listWord("")).toThrow(InvalidArgumentError);
});
