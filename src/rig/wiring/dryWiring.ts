import type { Instrument } from "../model/rig.js";
import { type Box, inputJacks, outputJacks, type Wiring } from "./wiring.js";

/** Word under which the dry take runs along, as a wiring of its own. */
export const dryId = "dry";

/** The instrument straight into the destination, a cable an output. */
export function dryWiring({ outputs }: Pick<Instrument, "outputs">): Wiring {
  const take: Box = { kind: "take", id: "take", label: "Instrument", outputs, channels: outputs };
  const destination: Box = { kind: "destination", id: "destination", label: "Destination", inputs: outputs };
  return {
    boxes: [take, destination],
    cables: outputJacks(take).map((jack, n) => ({
      from: { box: take.id, jack },
      to: { box: destination.id, jack: inputJacks(destination)[n] },
    })),
  };
}
