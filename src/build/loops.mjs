// Compiles the inner loops in AssemblyScript to WebAssembly with SIMD, as a module of JavaScript that holds the code.
import { mkdirSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import asc from "assemblyscript/asc";

const source = "src/sound/loops/assembly/index.ts";
const target = "dist/sound/loops/assembled.js";

/** @param root  the project's folder, with a slash at the end */
export async function buildLoops(root) {
  const options = [
    "-O3",
    "--noAssert",
    "--enable",
    "simd",
    "--runtime",
    "stub",
    "--importMemory",
    "--disableWarning",
    "112",
  ];
  let code = null;
  const { error, stderr } = await asc.main([source, "-o", "loops.wasm", "--baseDir", root, ...options], {
    writeFile: (_name, contents) => {
      code = contents;
    },
  });
  if (error) {
    process.stderr.write(`${stderr}${error.message}\n`);
    process.exit(1);
  }
  mkdirSync(dirname(`${root}${target}`), { recursive: true });
  writeFileSync(`${root}${target}`, moduleOf(Buffer.from(code).toString("base64")));
}

const moduleOf = (base64) => `const code = "${base64}";
export const compileLoops = () => new WebAssembly.Module(Uint8Array.from(atob(code), (letter) => letter.charCodeAt(0)));
export const runLoops = (compiled, memory) => new WebAssembly.Instance(compiled, { env: { memory } }).exports;
`;
