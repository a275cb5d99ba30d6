import { editRig, type RigEdit } from "../../../rig/file/editRig.js";
import type { RigFault } from "../../../rig/file/faults.js";
import { type CheckedRig, checkRig } from "../../../rig/file/parseRig.js";
import type { RigText } from "../../../rig/file/rigText.js";
import type { Rig } from "../../../rig/model/rig.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { History } from "./history.js";

/** The rig file on the desk of the live page. */
export class LiveDesk implements RigDesk {
  readonly #history: History<RigText>;
  readonly #onChange: (checked: CheckedRig) => void;
  readonly #came: string;
  #checked: CheckedRig;
  #data: unknown;
  #draft: Rig | null = null;
  #wholeNames: readonly string[] = [];
  #saved: string;
  #isUnheard = false;
  #opened: RigText;

  /** @param onChange  called after every change, with what the text is as a rig */
  constructor(opened: RigText, onChange: (checked: CheckedRig) => void) {
    this.#history = new History(opened);
    this.#onChange = onChange;
    this.#checked = checkRig(opened.text, opened.file);
    this.#note();
    this.#came = opened.text;
    this.#saved = opened.text;
    this.#opened = opened;
  }

  get file(): string {
    return this.#history.state.file;
  }
  get text(): string {
    return this.#history.state.text;
  }
  get data(): unknown {
    return this.#data;
  }
  get draft(): Rig | null {
    return this.#draft;
  }
  get canEdit(): boolean {
    return this.#checked.data !== null;
  }
  get wholeNames(): readonly string[] {
    return this.#wholeNames;
  }
  get faults(): readonly RigFault[] {
    return this.#checked.faults;
  }
  get undoes(): string | null {
    return this.#history.undoes;
  }
  get redoes(): string | null {
    return this.#history.redoes;
  }
  /** True from the opening of another file until it is whole: what was heard before is not of it. */
  get isUnheard(): boolean {
    return this.#isUnheard;
  }
  get isAsItCame(): boolean {
    return this.text === this.#came;
  }
  get isSaved(): boolean {
    return this.text === this.#saved;
  }

  edit(what: string, edits: readonly RigEdit[]): void {
    this.replace(what, editRig(this.text, edits));
  }

  replace(what: string, text: string, file = this.file): void {
    if (text === this.text && file === this.file) return;
    this.#history.go(what, { file, text }, performance.now());
    this.#check();
  }

  open(file: string, text: string): void {
    this.#opened = { file, text };
    this.#saved = text;
    if (text === this.text && file === this.file) return;
    this.#isUnheard = true;
    this.#draft = null;
    this.replace(`opening ${file}`, text, file);
  }
  reset(): void {
    const { file, text } = this.#opened;
    this.replace("back to the file", text, file);
  }

  undo(): void {
    this.#history.undo();
    this.#check();
  }
  redo(): void {
    this.#history.redo();
    this.#check();
  }
  saved(): void {
    this.#saved = this.text;
    this.#onChange(this.#checked);
  }

  #check(): void {
    this.#checked = checkRig(this.text, this.file);
    this.#note();
    this.#onChange(this.#checked);
  }

  #note(): void {
    const { data, rig, draft } = this.#checked;
    this.#data = data ?? this.#data;
    this.#draft = draft ?? this.#draft;
    if (!rig) return;
    this.#isUnheard = false;
    this.#wholeNames = rig.pedals.map(({ name }) => name);
  }
}
