import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const root = fileURLToPath(new URL("../../", import.meta.url));
/** The program as it is built, without the page's scripts, assembled loops and what else may lie there. */
const files = readdirSync(`${root}dist`, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".js") && !/^(page|run|api|sound)[/\\]/.test(name))
  .map((name) => readFileSync(`${root}dist/${name}`, "utf8"));

test("the program's files hold our own code alone, and each of our files once", () => {
  const origins = files.flatMap((code) => [
    ...new Set([...code.matchAll(/^\/\/ (\S+\.[cm]?[jt]s)$/gm)].map(([, path]) => path)),
  ]);
  expect(origins.length).toBeGreaterThan(400);
  expect(origins.filter((path) => !path.startsWith("src/"))).toEqual([]);
  expect(origins.filter((path, n) => origins.indexOf(path) < n)).toEqual([]);
});

test("what they import of others is installed with the package", () => {
  const { dependencies, optionalDependencies, peerDependencies } = JSON.parse(
    readFileSync(`${root}package.json`, "utf8"),
  );
  const installed = Object.keys({ ...dependencies, ...optionalDependencies, ...peerDependencies });
  const imports = /^(?:import .*from|import|\} from) "([^.#"][^"]*)";$|^[^"]* import\("([^.#"][^"]*)"\)/gm;
  const names = files.flatMap((code) => [...code.matchAll(imports)].map(([, still, late]) => still ?? late));
  const packages = names
    .filter((name) => !name.startsWith("node:"))
    .map((name) => name.split("/", name.startsWith("@") ? 2 : 1).join("/"));
  expect(packages).toContain("zod");
  expect(packages).toContain("mediabunny");
  expect(packages.filter((name) => !installed.includes(name))).toEqual([]);
});
