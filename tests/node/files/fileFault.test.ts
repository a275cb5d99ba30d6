import { expect, test } from "vitest";
import { fileFault } from "../../../src/node/files/fileFault.js";
import { UserError } from "../../../src/text/userError.js";

const withCode = (code: string) => Object.assign(new Error(`${code}: as the system says it`), { code });

test.each([
  ["ENOSPC", "renders/demo: the disk is full. Make room or name another place; it was not written."],
  [
    "EACCES",
    "renders/demo: this account may not use it. Change its permissions or name another place; it was not written.",
  ],
  ["EROFS", "renders/demo: the disk is read-only. Name another place; it was not written."],
])("%s while writing is the work that failed, told in one line", (code, line) => {
  const fault = fileFault(withCode(code), "renders/demo", "write");
  expect(fault).toBeInstanceOf(UserError);
  expect(fault).toMatchObject({ message: line, exitStatus: 1 });
});

test("while reading it is a wrong file", () => {
  const fault = fileFault(withCode("ENOENT"), "takes/vers.wav", "read");
  expect(fault).toMatchObject({
    message: "takes/vers.wav: there is no such file or folder. Check the name.",
    exitStatus: 2,
  });
});

test("anything else keeps its stack", () => {
  const bug = new TypeError("x is undefined");
  expect(fileFault(bug, "a", "write")).toBe(bug);
  expect(fileFault(withCode("EWHATEVER"), "a", "write")).not.toBeInstanceOf(UserError);
});
