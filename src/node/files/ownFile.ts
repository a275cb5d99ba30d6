import { createRequire } from "node:module";

/**
 * Where a file of this package lies, as `dist/page/app.bundle.js`, seen from its top. The build puts code where it likes,
 * so that nothing is found beside the file that asks: `#own` is an import of `package.json`.
 * Source: Node's documentation of packages, "Subpath imports".
 * @throws Error when it is not there, as before a build
 */
export const ownFile = (path: string): string => createRequire(import.meta.url).resolve(`#own/${path}`);
