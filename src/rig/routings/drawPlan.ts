import { chainOf } from "../model/chain.js";
import type { Place, Rig } from "../model/rig.js";
import { withLoading } from "../wiring/loading.js";
import type { Wiring } from "../wiring/wiring.js";
import { Board, isStereo, type Signal } from "./board.js";
import { placeRules, places } from "./places/places.js";
import type { Plan, Seat } from "./plan.js";
import { type Row, rowsOf } from "./seats.js";

export interface Drawn {
  readonly wiring: Wiring;
  /** What the builder should know of this wiring in particular. */
  readonly cautions: readonly string[];
}

/**
 * The wiring of a plan: what stands ahead of the split, the units that leave the row, then the row in its own order with
 * every unit where its place has it. A plan without units is the rig as it stands.
 */
export function drawPlan(rig: Rig, { id, seats }: Pick<Plan, "seats"> & Partial<Plan>): Drawn {
  const { ahead, stages } = chainOf(rig);
  const board = new Board(rig);
  const trims = (id && rig.returnTrims?.[id]) || {};
  const leaving = places.flatMap((place) => (placeRules[place].around ? rowsAt(rig, seats, place) : []));
  const standing = stages.map((stage) =>
    stage.kind === "units" ? rowsStanding(rig, seats, new Set(stage.pedals.map(({ name }) => name))) : [],
  );
  const suffixOf = numbering([...standing.flat(), ...leaving]);
  const stand = (row: Row, suffix = "") => ({ board, rig, trims, branches: row.branches, suffix });

  let signal = ahead.reduce<Signal>((into, pedal) => board.pedal(pedal, into), board.take());
  const behind = leaving.map((row) => {
    const around = placeRules[row.place].around?.(stand(row), signal);
    signal = around?.signal ?? signal;
    return (sides: Signal) => around?.behind(sides, suffixOf(row)) ?? sides;
  });
  stages.forEach((stage, n) => {
    if (stage.kind === "stereo") signal = board.pedal(stage.pedal, signal);
    for (const row of standing[n]) {
      const { inRow } = placeRules[row.place];
      if (inRow && isStereo(signal)) signal = inRow(stand(row, suffixOf(row)), signal);
    }
  });
  for (const finish of behind.reverse()) signal = finish(signal);
  return { wiring: withLoading(board.deliver(signal), rig), cautions: board.cautions };
}

/** Every unit of one place, wherever it stands. */
const rowsAt = (rig: Rig, seats: readonly Seat[], place: Place): readonly Row[] =>
  rowsOf(
    rig,
    seats.filter((seat) => seat.place === place),
  );

/** The units of one run that stay in the row. */
const rowsStanding = (rig: Rig, seats: readonly Seat[], run: ReadonlySet<string>): readonly Row[] =>
  rowsOf(
    rig,
    seats.filter(({ unit, place }) => run.has(unit) && placeRules[place].inRow !== null),
  );

/** " 1", " 2" and so on for rows with boxes of their own, where there are several; else "". */
function numbering(rows: readonly Row[]): (row: Row) => string {
  const numbered = rows.filter(({ place }) => placeRules[place].hasBoxes);
  return (row) => (numbered.length > 1 ? ` ${numbered.indexOf(row) + 1}` : "");
}

/** The whole rig in mono, in the order given: each stereo pedal by its mono input and output. */
export function drawMono(rig: Rig): Drawn {
  const { units } = chainOf(rig);
  const board = new Board(rig);
  const signal = rig.pedals.reduce(
    (into, pedal) => board.pedal(pedal, into, { stereo: false, isUnit: units.includes(pedal) }),
    board.take(1),
  );
  return { wiring: withLoading(board.deliver(signal), rig), cautions: board.cautions };
}
