import type { RigFault } from "../../../rig/file/faults.js";
import { sketchWiring } from "../../../rig/file/sketchWiring.js";
import { wiringIds, withCable, withoutCable } from "../../../rig/file/wiringEdits.js";
import type { HandWiring } from "../../../rig/model/rig.js";
import { drawHand } from "../../../rig/routings/drawHand.js";
import { looseEnds } from "../../../rig/wiring/looseEnds.js";
import { type Box, inputJacks, type Jack, outputJacks, type Wiring } from "../../../rig/wiring/wiring.js";
import type { View } from "../view.js";

/** One jack of a drawing. */
export interface Plug extends Jack {
  readonly side: "in" | "out";
}

/** The drawing on the board: what stands in the rig file of one wiring, and what can be done to its cables. */
export class OpenDrawing {
  readonly view: View;
  #id: string | null = null;
  #hand: HandWiring | null = null;
  #board: Wiring | null = null;

  constructor(view: View) {
    this.view = view;
  }

  /** Null where the rig has no wiring drawn by hand. */
  get id(): string | null {
    return this.#id;
  }
  /** As far as it can be made out. */
  get hand(): HandWiring | null {
    return this.#hand;
  }
  /** With every jack to be seen; null where the rig has no pedals yet. */
  get board(): Wiring | null {
    return this.#board;
  }
  get label(): string {
    return this.#hand?.label ?? "";
  }
  get faults(): readonly RigFault[] {
    return this.view.bench.desk.faults.filter(
      ({ path }) => path?.[0] === "wirings" && path[1] === this.#id && this.#id !== null,
    );
  }

  /** What a builder would ask about it, where it can be built. */
  get cautions(): readonly string[] {
    const { draft } = this.view.bench.desk;
    if (!this.#hand || !draft || this.faults.length > 0) return [];
    return looseEnds(drawHand(this.#hand, draft), draft);
  }

  choose(id: string): void {
    this.#id = id;
    this.refresh();
  }

  /** Reads it anew; a wiring that is gone gives way to another. */
  refresh(): void {
    const { data, draft } = this.view.bench.desk;
    const ids = wiringIds(data);
    if (this.#id === null || !ids.includes(this.#id)) this.#id = ids.at(-1) ?? null;
    this.#hand = this.#id === null ? null : sketchWiring(data, this.#id);
    this.#board = this.#hand && draft ? drawHand(this.#hand, draft, "all") : null;
  }

  nameOf({ box, jack }: Jack): string {
    return `${this.#boxes.get(box)?.label ?? box}, ${jack}`;
  }
  /** Numbers of the cables in a jack. */
  cablesAt({ box, jack, side }: Plug): readonly number[] {
    return (this.#board?.cables ?? []).flatMap((cable, n) => {
      const end = side === "out" ? cable.from : cable.to;
      return end.box === box && end.jack === jack ? [n] : [];
    });
  }
  plugs(side: Plug["side"]): readonly Plug[] {
    const jacksOf = side === "out" ? outputJacks : inputJacks;
    return (this.#board?.boxes ?? []).flatMap((box) =>
      jacksOf(box).map((jack): Plug => ({ box: box.id, jack, side })),
    );
  }

  /** A cable between an output and an input, whichever is named first. */
  connect(one: Plug, other: Plug): void {
    const [from, to] = one.side === "out" ? [one, other] : [other, one];
    const { desk } = this.view.bench;
    if (this.#id === null) return;
    const words = `${this.nameOf(from)} to ${this.nameOf(to)}`;
    desk.edit(`a cable, ${words}`, withCable(desk.data, this.#id, endOf(from), endOf(to)));
    this.#tell(`Cable from ${words}.`);
  }
  pull(place: number): void {
    const cable = this.#board?.cables[place];
    if (this.#id === null || !cable) return;
    const words = `${this.nameOf(cable.from)} to ${this.nameOf(cable.to)}`;
    this.view.bench.desk.edit(`pulling a cable, ${words}`, withoutCable(this.#id, place));
    this.#tell(`Pulled: ${words}.`);
  }

  /** What was done, and what is wrong now. */
  #tell(done: string): void {
    const [fault, ...more] = this.faults;
    const wrong = fault ? ` ${fault.message}${more.length > 0 ? ` And ${more.length} more.` : ""}` : "";
    this.view.say(`${done}${wrong}`);
  }

  get #boxes(): ReadonlyMap<string, Box> {
    return new Map((this.#board?.boxes ?? []).map((box) => [box.id, box]));
  }
}

/** As it stands in the rig file. */
export const endOf = ({ box, jack }: Jack): string => `${box}:${jack}`;
