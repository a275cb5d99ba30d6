import { expect, test } from "vitest";
import { soundFilesOf } from "../../../src/rig/model/soundFiles.js";
import { pedal, rigOf } from "../../rigs.js";

/** Wherever the rig file may name one (README, "The rig file"); each once, and no empty name. */
test("sound files of pedals, alternatives, other units and hand-drawn wirings", () => {
  const room = pedal("Room", "response", "mono", { file: "room.wav" });
  const other = pedal("Hall", "response", "stereo", { file: "hall.wav" });
  const rig = rigOf(
    [
      pedal("Swing", "chorus", "mono-to-stereo"),
      { ...room, alternatives: [other, pedal("Plate", "plate", "mono")] },
      pedal("Again", "response", "mono", { file: "room.wav" }),
      pedal("None", "response", "mono"),
    ],
    {
      secondUnit: { Room: { file: "second.wav" } },
      stereoUnit: { Room: { file: "both.wav" } },
      wirings: {
        own: {
          label: "own",
          boxes: { room: { box: "pedal", pedal: "Room", fullyWet: true, settings: { file: "wet.wav" } } },
          cables: [],
        },
      },
    },
  );
  expect(soundFilesOf(rig)).toEqual(["room.wav", "hall.wav", "both.wav", "second.wav", "wet.wav"]);
});
