// How code is bundled for the page: for a browser, with style sheets as text, and with nothing in it that needs Node.
import { builtinModules } from "node:module";

/** The FFT's module names some of Node's in a branch that it takes under Node alone; they stay as they are there. */
const mayNameNode = /node_modules[\\/]@echogarden[\\/]pffft-wasm[\\/]/;

const ofNode = new RegExp(`^(node:.*|${builtinModules.join("|")})$`);

/** Fails the build where anything that the page bundles, ours or a library's, imports a module of Node. */
const withoutNode = {
  name: "without-node",
  setup(build) {
    build.onResolve({ filter: ofNode }, ({ path, importer }) =>
      mayNameNode.test(importer)
        ? { path, external: true }
        : {
            errors: [{ text: `"${path}" is a module of Node, which a page has not; ${importer} imports it` }],
          },
    );
  },
};

/** The rig's checks have messages of their own: the library's, in 50 languages, stay at home. */
const withoutLocales = {
  name: "without-locales",
  setup(build) {
    build.onLoad({ filter: /[\\/]zod[\\/]v4[\\/]locales[\\/]index\.js$/ }, () => ({
      contents: 'export { default as en } from "./en.js";',
      loader: "js",
    }));
  },
};

/** Settings of esbuild. */
export const pageBundle = {
  bundle: true,
  format: "iife",
  platform: "browser",
  target: "es2022",
  loader: { ".css": "text" },
  define: { global: "globalThis" },
  plugins: [withoutNode, withoutLocales],
};
