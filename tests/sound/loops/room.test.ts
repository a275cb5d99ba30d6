import { execFile } from "node:child_process";
import { promisify } from "node:util";
import { expect, test } from "vitest";
import { roomOf } from "./twins.js";

test("there is SIMD here, so that the twins are two", () => {
  const [plain, simd] = [roomOf("plain", 64), roomOf("simd", 64)];
  expect(simd.loops).not.toBe(plain.loops);
  expect(simd.doubles(1).buffer).not.toBe(plain.doubles(1).buffer);
});

test("an array of another memory is refused, not written over", () => {
  const room = roomOf("simd", 1024);
  const ask = () => room.loops.windowOne(new Float32Array(2), room.doubles(2), room.doubles(2));
  expect(ask).toThrow("of another memory");
});

test("a room gives no more than was asked for, and others keep theirs", () => {
  const room = roomOf("simd", 128);
  const other = roomOf("simd", 64);
  room.doubles(8);
  room.doubles(8);
  expect(() => room.doubles(1)).toThrow("asked for more");
  expect(other.doubles(8)).toEqual(new Float64Array(8));
});

/** What engines without WebAssembly, or without SIMD in it, do, and pages whose policy forbids it, and machines without memory. */
test.each([
  ["there is no WebAssembly", "delete globalThis.WebAssembly"],
  ["nothing may be compiled", "WebAssembly.Module = class { constructor() { throw new Error('no') } }"],
  ["there is no memory", "WebAssembly.Memory = class { constructor() { throw new RangeError('no') } }"],
])("where %s the plain loops measure the same", async (_why, before) => {
  expect(await measuredAfter(before)).toEqual(await measuredAfter(""));
});

/** Measures of a sound, by the built library in a process of its own, once `before` has run there. */
async function measuredAfter(before: string): Promise<unknown> {
  const library = new URL("../../../dist/index.js", import.meta.url);
  const script = `${before};
    const { measureClip } = await import(${JSON.stringify(library.href)});
    const side = (step) => Float32Array.from({ length: 90000 }, (_, n) => Math.sin(n * step) * Math.sin(n / 9000));
    console.log(JSON.stringify(measureClip({ rateHz: 48000, channels: [side(0.05), side(0.07)] })));`;
  const { stdout } = await promisify(execFile)(process.execPath, ["--input-type=module", "--eval", script]);
  return JSON.parse(stdout);
}
