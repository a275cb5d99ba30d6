import { listAt } from "../../../rig/file/dataAt.js";
import type { Path } from "../../../rig/file/yaml.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { button } from "../../widgets/button.js";
import { el, setText } from "../../widgets/dom.js";
import { type RigField, type RigPart, samePath } from "../../widgets/form/rigFields.js";

interface ListKind {
  readonly path: () => Path;
  /** On the button that adds one. */
  readonly add: string;
  /** What is added. */
  readonly fresh: () => unknown;
  /** What one is called: "box 2 in the drawer". */
  readonly called: (n: number) => string;
  /** The form of one. */
  readonly row: (path: () => Path, owner: () => string) => RigPart;
}

/** A list of the rig file, an entry a row. What is wrong with the list itself is said at its button. */
export function listPart(desk: RigDesk, { path, add, fresh, called, row }: ListKind): RigPart {
  const rows: (RigPart & { readonly focus: () => void })[] = [];
  const list = el("ul", { class: "rig-list" });
  const fault = el("p", { class: "fault" });
  const count = () => listAt(desk.data, path()).length;
  const adder = button(add, () => {
    const at = count();
    desk.edit(`${add}: ${called(at)}`, [{ into: path(), at, add: fresh() }]);
    rows[at]?.focus();
  });
  const own: RigField = {
    node: fault,
    fields: [],
    get path() {
      return path();
    },
    get hasFault() {
      return fault.textContent !== "";
    },
    focus: () => adder.focus(),
    update() {
      const found = desk.faults.filter((each) => samePath(each.path, path()));
      setText(fault, found.map(({ message }) => message).join(" "));
    },
  };
  const takeOut = (n: number) => {
    const isLast = count() === 1;
    desk.edit(`taking ${called(n)} out`, [{ set: isLast ? path() : [...path(), n], to: undefined }]);
    (rows[Math.min(n, rows.length - 1)] ?? adder).focus();
  };
  const newRow = (n: number) => {
    const owner = () => called(n);
    const part = row(() => [...path(), n], owner);
    const out = button("Take out", () => takeOut(n), "quiet");
    out.setAttribute("aria-label", `Take out: ${owner()}`);
    return {
      node: el("li", {}, part.node, out),
      get fields() {
        return part.fields;
      },
      update: () => part.update(),
      focus: () => (part.fields[0] ?? out).focus(),
    };
  };
  return {
    node: el("div", { class: "rig-list-box" }, list, fault, adder),
    get fields() {
      return [own, ...rows.flatMap(({ fields }) => fields)];
    },
    update() {
      for (let n = rows.length; n < count(); n++) {
        rows.push(newRow(n));
        list.append(rows[n].node);
      }
      for (const { node } of rows.splice(count())) node.remove();
      for (const each of rows) each.update();
      own.update();
      list.hidden = rows.length === 0;
    },
  };
}
