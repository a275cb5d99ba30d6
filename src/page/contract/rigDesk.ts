import type { RigEdit } from "../../rig/file/editRig.js";
import type { RigFault } from "../../rig/file/faults.js";
import type { Rig } from "../../rig/model/rig.js";

/** The rig file on the desk: its text is what is edited, by the page's controls or by hand, and nothing else. */
export interface RigDesk {
  /** Its name, for messages and for saving. */
  readonly file: string;
  readonly text: string;
  /** The plain data in the text, faults or not; of a text that is no YAML, as it was last. */
  readonly data: unknown;
  /** The rig with what is drawn by hand as it stands, faults and all; while anything of this file cannot be read, as it was last. */
  readonly draft: Rig | null;
  /** False while the text is no YAML, or no map: then only the text itself can be changed. */
  readonly canEdit: boolean;
  /** Names of the pedals as the rig was last whole: what the rest of the file calls them. */
  readonly wholeNames: readonly string[];
  /** What is wrong with it. While there is anything, the bench goes on with the rig as it was last whole. */
  readonly faults: readonly RigFault[];
  /** What undo would take back, in a few words; null when there is nothing. */
  readonly undoes: string | null;
  readonly redoes: string | null;
  /** True while it is, to the letter, the file that the page came with. */
  readonly isAsItCame: boolean;
  /** False when it differs from the file that was opened, or saved last. */
  readonly isSaved: boolean;
  /**
   * @param what  in a few words, for undo: "Boiler tank, mix"
   * @param edits changes of one step
   */
  edit(what: string, edits: readonly RigEdit[]): void;
  /** Another text in its place. */
  replace(what: string, text: string, file?: string): void;
  /** A file from now on in place of this one. */
  open(file: string, text: string): void;
  /** Back to the file as it was opened. */
  reset(): void;
  undo(): void;
  redo(): void;
  /** The text stands in a file now. */
  saved(): void;
}
