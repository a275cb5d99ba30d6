import { type responseSettings, responseTaps } from "../../rig/pedals/response.js";
import { convolved, sum } from "./nodes.js";
import { always, type StandardModel } from "./standardModel.js";

/** Response: a ConvolverNode from each input to each output, not normalised: the level is the model's. */
export const standardResponse: StandardModel<typeof responseSettings> = {
  whyNot: always,
  wet: ({ context, settings, fed, outputs, clips }) => {
    const use = { rateHz: context.sampleRate, inputs: fed.length === 2 ? 2 : 1, outputs, clips } as const;
    return responseTaps(settings, use).map((row) =>
      sum(
        context,
        row.flatMap((taps, input) => (taps.length > 0 ? [convolved(context, fed[input], taps)] : [])),
      ),
    );
  },
};
