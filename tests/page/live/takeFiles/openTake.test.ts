import { expect, test } from "vitest";
import { openTake } from "../../../../src/page/live/takeFiles/openTake.js";
import { silentFlac } from "../../../sound/audio/flacBytes.js";

/** Node has no decoder of a browser's, so that only what is refused ahead of decoding comes out as this. */
test("a file that unpacks to gigabytes is refused by its length, before it is decoded", async () => {
  const file = new File([Buffer.from(silentFlac(16_400))], "bomb.flac");
  await expect(openTake(file, 1, () => 10_000_000)).rejects.toThrow(
    "bomb.flac: is 22391 s long; a page has memory for 208 s of this rig. Cut it, or use the command line.",
  );
});
