import type { Path } from "../../../rig/file/yaml.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import {
  type Choice,
  choiceField,
  type FieldPlace,
  numberField,
  type RigField,
  switchField,
  textField,
} from "./rigFields.js";

/** Makes fields of one owner, by where they stand under a path. */
export function fieldsAt(desk: RigDesk, path: () => Path, owner: () => string) {
  const place = (label: string, keys: Path, hint?: string): FieldPlace => ({
    path: () => [...path(), ...keys],
    label,
    owner,
    ...(hint === undefined ? {} : { hint }),
  });
  return {
    place,
    text: (label: string, keys: Path, hint?: string): RigField => textField(desk, place(label, keys, hint)),
    number: (label: string, unit: string, keys: Path, hint?: string): RigField =>
      numberField(desk, place(label, keys, hint), unit),
    /** The first word is the one that holds where the file says nothing. */
    choice: (label: string, keys: Path, words: readonly string[], hint?: string): RigField =>
      choiceField(desk, place(label, keys, hint), words.map(plainly), { usual: words[0] }),
    yesNo: (label: string, keys: Path, usual: boolean, hint?: string): RigField =>
      switchField(desk, place(label, keys, hint), usual),
  };
}

const plainly = (word: string): Choice => [word, word.replaceAll("-", " ")];
