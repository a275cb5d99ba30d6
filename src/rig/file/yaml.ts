import {
  Document,
  isAlias,
  isCollection,
  isMap,
  isPair,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  parseDocument,
  visit,
  type YAMLMap,
  type YAMLSeq,
} from "yaml";
import { type Fault, UserError } from "../../text/userError.js";
import { quoted } from "../../text/words.js";
import { notTooDeep, refuseDepth } from "./yamlDepth.js";

/** A path from the root: keys of maps and numbers in lists. */
export type Path = readonly PropertyKey[];
export interface TextPlace {
  readonly line: number;
  readonly column: number;
}
export interface YamlText {
  /** Plain data. `null` for a file with nothing in it. */
  readonly value: unknown;
  /** Where the value at a path stands; of a path that is not there, the nearest thing around it that is. */
  placeOf(path: Path): TextPlace | undefined;
  /** Where the key at the end of a path stands. */
  placeOfKey(path: Path): TextPlace | undefined;
}

/**
 * Reads one YAML 1.2 document (core schema), which rig files are written in, and remembers where everything stands.
 *
 * Tags of one's own, aliases and merge keys are refused: a rig is plain data, and a few lines of aliases can unfold to
 * gigabytes; so is a version, under which numbers could mean something else. Throws a `UserError` with every fault of
 * the text, with its line and column.
 */
export function readYaml(text: string, file: string): YamlText {
  const source = text.startsWith("\ufeff") ? text.slice(1) : text;
  const lines = new LineCounter();
  refuseDepth(source, file);
  const document = notTooDeep(file, () => parseDocument(source, { ...readingOptions, lineCounter: lines }));
  const placeAt = (offset: number): TextPlace => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  const told = [...document.errors, ...document.warnings].slice(0, mostFaults);
  const faults: Fault[] = told.map(({ code, message, pos }) => ({
    file,
    ...placeAt(pos[0]),
    message: reworded[code] ?? `${message.split("\n")[0]!.replace(/[.:]?$/, ".")} Mend the YAML there.`,
  }));
  if (document.directives?.yaml.explicit) {
    faults.push({ file, ...placeAt(source.search(/^%YAML/m)), message: withVersion });
  }
  if (faults.length === 0) {
    for (const { offset, message } of notTooDeep(file, () => nodeFaults(document)))
      faults.push({ file, ...placeAt(offset), message });
  }
  if (faults.length > 0) throw new UserError(faults.slice(0, mostFaults));
  const root = document.contents;
  return {
    value: notTooDeep(file, () => document.toJS()),
    placeOf: (path) => placeOfNode(walk(root, path, false), placeAt),
    placeOfKey: (path) => placeOfNode(walk(root, path, true), placeAt),
  };
}

/** Another version would be obeyed, and 1.1 reads 5:20 as 320, yes as true and 010 as 8. */
const withVersion = "states a version of YAML; a rig file is read as 1.2. Take the line out.";

/** A text with more faults of syntax than this is not a rig; the first ones say so. */
const mostFaults = 20;

/** Keys are text and are checked for doubles here: the parser's own check takes time by the square of their number. */
export const readingOptions = {
  prettyErrors: false,
  version: "1.2",
  merge: false,
  stringKeys: true,
  uniqueKeys: false,
} as const;

/** Plain data as YAML, which `readYaml` gives back as it was. Maps and lists of plain values stand on one line. */
export function writeYaml(value: unknown): string {
  const document = new Document(value, { aliasDuplicateObjects: false });
  visit(document, {
    Collection(key, node, path) {
      if (path.length > 1 && key !== null) onOneLine(node);
    },
  });
  return document.toString(writingOptions);
}

/** A map or list of plain values stands on one line. */
export function onOneLine(node: YAMLMap | YAMLSeq): void {
  if (node.items.every((item) => isScalar(isPair(item) ? item.value : item))) node.flow = true;
}

export const writingOptions = { lineWidth: 110, flowCollectionPadding: true } as const;

const reworded: Readonly<Record<string, string>> = {
  TAB_AS_INDENT:
    "a tab at the start of the line; YAML is indented by spaces. Put spaces in its place, so that the line begins where its neighbours do.",
  NON_STRING_KEY: "a key that is a list or a map; the keys of a rig are words. Write a word.",
  MULTIPLE_DOCS: "a second document begins here (---); a rig file holds one. Take the second one out.",
  BAD_INDENT:
    "the line begins at a column that fits no list or map above it. Line it up with its neighbours.",
  TAG_RESOLVE_FAILED: "a tag (!...) that is not known; a rig is plain data. Take the tag out.",
  ALIAS_PROPS: "an alias with an anchor or a tag; a rig is plain data. Write the values out in its place.",
};

/** A list or map of more entries is not a rig's: boards have 64 pedals, and long ranges are written FROM..TO/STEPS. */
const mostEntries = 1000;

/** Aliases, double keys, and lists and maps without end. */
function nodeFaults(document: Document.Parsed): { offset: number; message: string }[] {
  const faults: { offset: number; message: string }[] = [];
  const refuseLong = ({ items, range }: YAMLMap | YAMLSeq, what: string) => {
    const message = `is a ${what} of ${items.length} entries; a rig's have at most ${mostEntries}. Take out what the rig does not need.`;
    if (items.length > mostEntries) faults.push({ offset: range?.[0] ?? 0, message });
  };
  visit(document, {
    Alias(_key, node) {
      const message = `*${node.source} is an alias; a rig is plain data. Write the values out in its place.`;
      faults.push({ offset: node.range?.[0] ?? 0, message });
      return faults.length < mostFaults ? undefined : visit.BREAK;
    },
    Seq: (_key, node) => refuseLong(node, "list"),
    Map(_key, node) {
      refuseLong(node, "map");
      const keys = new Set<string>();
      for (const { key } of node.items) {
        if (!isScalar(key)) continue;
        const word = String(key.value);
        const message = `${quoted(word)} stands twice in this map. Keep one of them.`;
        if (keys.has(word)) faults.push({ offset: key.range?.[0] ?? 0, message });
        keys.add(word);
        if (faults.length >= mostFaults) return visit.BREAK;
      }
    },
  });
  return faults;
}

/** The node at the end of a path (or its key's node); where the path breaks off, the last node that is there. */
function walk(root: Node | null, path: Path, key: boolean): Node | null {
  let node = root;
  for (const [depth, step] of path.entries()) {
    let next: unknown = null;
    if (isMap(node)) {
      const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(step));
      if (pair === undefined) return node;
      const wantsKey = (key && depth === path.length - 1) || isNothing(pair.value);
      next = wantsKey ? pair.key : pair.value;
    } else if (isSeq(node)) {
      next = node.items[Number(step)];
    }
    if (!(isScalar(next) || isCollection(next) || isAlias(next))) return node;
    node = next;
  }
  return node;
}

/** `depth:` with nothing behind it: its key tells the place better than the gap. */
const isNothing = (value: unknown): boolean =>
  value === null || (isScalar(value) && value.range?.[0] === value.range?.[1]);

function placeOfNode(node: Node | null, placeAt: (offset: number) => TextPlace): TextPlace | undefined {
  return node?.range ? placeAt(node.range[0]) : undefined;
}
