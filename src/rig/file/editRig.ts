import {
  type Document,
  isMap,
  isNode,
  isScalar,
  isSeq,
  type Node,
  parseDocument,
  visit,
  YAMLSeq,
} from "yaml";
import { onOneLine, type Path, readingOptions, writingOptions } from "./yaml.js";

/** One change of a rig file, by paths from its root. */
export type RigEdit =
  /** Puts a value where the path leads; `undefined` takes out what stands there. */
  | { readonly set: Path; readonly to: unknown }
  /** Puts a value into the list at the path, before what stands `at`; a map that stands there becomes its first entry. */
  | { readonly into: Path; readonly at: number; readonly add: unknown }
  /** Moves one entry of the list at the path to where another stands. */
  | { readonly move: Path; readonly from: number; readonly to: number }
  /** Gives another name to the key at the end of the path. */
  | { readonly rename: Path; readonly key: string };

/**
 * The text of a rig file with these changes, one after the other. What they do not touch stays, comments with it; spaces
 * may be laid out anew. Text that is no YAML comes back as it was.
 */
export function editRig(text: string, edits: readonly RigEdit[]): string {
  const document: Document = parseDocument(text, readingOptions);
  if (document.errors.length > 0) return text;
  if (!isMap(document.contents)) document.contents = document.createNode({}) as never;
  for (const edit of edits) apply(document, edit);
  return document.toString(writingOptions);
}

function apply(document: Document, edit: RigEdit): void {
  if ("set" in edit) {
    if (edit.to === undefined) takeOut(document, edit.set);
    else put(document, edit.set, edit.to);
  } else if ("into" in edit) {
    const list = listAt(document, edit.into);
    list.flow = false;
    const entry = nodeOf(document, edit.add);
    if (isMap(entry)) entry.flow = false;
    list.items.splice(edit.at, 0, entry);
  } else if ("move" in edit) {
    const { items } = listAt(document, edit.move);
    items.splice(edit.to, 0, ...items.splice(edit.from, 1));
  } else {
    const map = document.getIn(edit.rename.slice(0, -1));
    if (!isMap(map)) return;
    const pair = map.items.find(({ key }) => isScalar(key) && key.value === edit.rename.at(-1));
    if (pair && isScalar(pair.key)) pair.key.value = edit.key;
  }
}

/** A scalar takes the new value into its place, with its comment; anything else is put there anew. */
function put(document: Document, path: Path, value: unknown): void {
  makeWay(document, path);
  const there = document.getIn(path, true);
  if (isScalar(there) && !isStructure(value)) {
    there.value = value;
    delete there.source;
  } else document.setIn(path, nodeOf(document, value));
}

/** Maps on the way to a path, in place of what cannot hold the next step. */
function makeWay(document: Document, path: Path): void {
  for (let depth = 1; depth < path.length; depth++) {
    const way = path.slice(0, depth);
    const there = document.getIn(way, true);
    if (isMap(there) || (isSeq(there) && typeof path[depth] === "number")) continue;
    const map = document.createNode({}) as Node & { flow?: boolean };
    map.flow = depth > 1;
    document.setIn(way, map);
  }
}

/** A map under a key that is left with nothing in it goes too: an empty one is not always allowed. */
function takeOut(document: Document, path: Path): void {
  if (!document.hasIn(path)) return;
  document.deleteIn(path);
  const around = path.slice(0, -1);
  const rest = around.length > 0 && typeof around.at(-1) === "string" ? document.getIn(around) : null;
  if (isMap(rest) && rest.items.length === 0) takeOut(document, around);
}

function listAt(document: Document, path: Path) {
  const there = document.getIn(path, true);
  if (isSeq(there)) return there;
  makeWay(document, path);
  const made = new YAMLSeq(document.schema);
  if (isMap(there)) made.items.push(there);
  document.setIn(path, made);
  return made;
}

function nodeOf(document: Document, value: unknown): Node {
  const node = document.createNode(value);
  if (!isNode(node)) throw new Error("no node of YAML");
  visit(node, { Collection: (_key, inner) => onOneLine(inner) });
  return node;
}

const isStructure = (value: unknown): boolean => typeof value === "object" && value !== null;
