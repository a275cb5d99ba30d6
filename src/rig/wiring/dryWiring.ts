import type { Wiring } from "./wiring.js";

/** Word under which the dry take runs along, as a wiring of one cable. */
export const dryId = "dry";

/** The instrument straight into the destination. */
export const dryWiring: Wiring = {
  boxes: [
    { kind: "take", id: "take", label: "Instrument" },
    { kind: "destination", id: "destination", label: "Destination", inputs: 1 },
  ],
  cables: [{ from: { box: "take", jack: "out" }, to: { box: "destination", jack: "in" } }],
};
