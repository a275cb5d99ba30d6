import { expect, test } from "vitest";
import { terminalOf } from "../../src/cli/terminal.js";

const screen = { isTTY: true, columns: 90 };

/** no-color.org: NO_COLOR counts when it is there and not empty, whatever it says. */
test("colour is for terminals that can, and that nobody told not to", () => {
  expect(terminalOf(screen, {}).colour).toBe(true);
  expect(terminalOf(screen, { NO_COLOR: "" }).colour).toBe(true);
  expect(terminalOf(screen, { NO_COLOR: "0" }).colour).toBe(false);
  expect(terminalOf(screen, { TERM: "dumb" }).colour).toBe(false);
  expect(terminalOf(screen, {}, false).colour).toBe(false);
  expect(terminalOf({ isTTY: false }, { CI: "1", FORCE_COLOR: "1" }).colour).toBe(false);
});

test("lines are rewritten on terminals only, with colour or without", () => {
  expect(terminalOf(screen, { NO_COLOR: "1" }).live).toBe(true);
  expect(terminalOf(screen, { TERM: "dumb" }).live).toBe(false);
  expect(terminalOf({}, {}).live).toBe(false);
});

test("the width is the terminal's, from 80 to 120; elsewhere COLUMNS, or 100", () => {
  expect(terminalOf(screen, {}).columns).toBe(90);
  expect(terminalOf({ isTTY: true, columns: 40 }, {}).columns).toBe(80);
  expect(terminalOf({ isTTY: true, columns: 300 }, {}).columns).toBe(120);
  expect(terminalOf({}, {}).columns).toBe(100);
  expect(terminalOf({}, { COLUMNS: "80" }).columns).toBe(80);
  expect(terminalOf({}, { COLUMNS: "wide" }).columns).toBe(100);
});
