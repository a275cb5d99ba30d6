import type { Rig } from "../model/rig.js";

/**
 * Ids of a wiring's boxes. A pedal of the rig goes by its name, and so does an alternative; every other box goes by a
 * name that none of them bears (capitals do not count) and no box before it: its label, or its label and a number.
 * So no name that a person gives a pedal ("Splitter", "destination") can meet the id of a box.
 */
export class BoxNames {
  readonly #taken: Set<string>;

  constructor({ pedals }: Pick<Rig, "pedals">) {
    this.#taken = namesTaken(pedals);
  }

  free(label: string): string {
    const name = freeName(label, this.#taken);
    this.#taken.add(name.toLowerCase());
    return name;
  }
}

/** Names of pedals and of their alternatives, in small letters. */
export const namesTaken = (pedals: Rig["pedals"]): Set<string> =>
  new Set(
    pedals.flatMap(({ name, alternatives }) =>
      [name, ...alternatives.map((each) => each.name)].map((each) => each.toLowerCase()),
    ),
  );

/** The name itself, else the first of "name 2", "name 3" and so on that is not taken. */
export function freeName(name: string, taken: ReadonlySet<string>): string {
  let free = name;
  for (let n = 2; taken.has(free.toLowerCase()); n++) free = `${name} ${n}`;
  return free;
}
