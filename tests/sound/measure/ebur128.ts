import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";

const folder = join(createRequire(import.meta.url).resolve("ebur128-wasm/package.json"), "..");
const program = new WebAssembly.Module(readFileSync(join(folder, "ebur128_wasm_bg.wasm")));

/**
 * Integrated loudness, LUFS, by the library `ebur128` (Rust, after libebur128) compiled to WebAssembly: an independent
 * judge. The package's own loader needs a switch of Node's, so its module is started by hand here.
 */
export const judgedLufs = (rateHz: number, left: Float32Array, right: Float32Array): number =>
  judge("ebur128_integrated_stereo", rateHz, left, right);

/** True peak, dBTP, by the same. */
export const judgedDbtp = (rateHz: number, left: Float32Array, right: Float32Array): number =>
  judge("ebur128_true_peak_stereo", rateHz, left, right);

function judge(name: string, rateHz: number, left: Float32Array, right: Float32Array): number {
  const fail = () => {
    throw new Error(`ebur128-wasm: ${name} failed inside`);
  };
  const imports = Object.fromEntries(WebAssembly.Module.imports(program).map((entry) => [entry.name, fail]));
  const { exports } = new WebAssembly.Instance(program, { "./ebur128_wasm_bg.js": imports });
  const { memory } = exports;
  if (!(memory instanceof WebAssembly.Memory)) throw new Error("ebur128-wasm: no memory");
  const place = (samples: Float32Array): number => {
    const at = call(exports, "__wbindgen_malloc", 4 * samples.length);
    new Float32Array(memory.buffer).set(samples, at / 4);
    return at;
  };
  const leftAt = place(left);
  const rightAt = place(right);
  return call(exports, name, rateHz, leftAt, left.length, rightAt, right.length);
}

function call(exports: WebAssembly.Exports, name: string, ...words: number[]): number {
  const run = exports[name];
  if (typeof run !== "function") throw new Error(`ebur128-wasm: no ${name}`);
  return Number(run(...words));
}
