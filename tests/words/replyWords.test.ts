import { expect, test } from "vitest";
import { type Reply, replyText } from "../../src/words/replyWords.js";

const reply: Reply = {
  rig: "Quarry shed",
  pick: null,
  remark: "  ",
  heard: [],
  trials: [],
  isAsItCame: true,
  date: new Date(2026, 10, 5, 23, 59),
};

test("before anything is chosen or heard, that is what it says", () => {
  expect(replyText(reply)).toBe(
    "Quarry shed: which wiring I like\n\nI like: nothing chosen yet\n\nHeard: nothing yet.\n5 November 2026\n",
  );
});

test("a line for each way of listening: take, level, mono; then trials, and that the rig was changed", () => {
  const how = { take: "verse.wav", matched: true, folded: false };
  const text = replyText({
    ...reply,
    pick: "Reverb first (unit-first)",
    remark: "More air,\nplease. ",
    heard: [
      { ...how, label: "Reverb first" },
      { ...how, label: "Reverb beside", matched: false },
      { ...how, label: "All in mono" },
      { ...how, label: "All in mono", take: "solo.wav", folded: true },
    ],
    trials: ["Reverb first preferred 9 of 10\u00a0times."],
    isAsItCame: false,
  });
  expect(text.split("\n")).toEqual([
    "Quarry shed: which wiring I like",
    "",
    "I like: Reverb first (unit-first)",
    "Remark: More air,",
    "please.",
    "",
    "Heard on verse.wav, matched in loudness: Reverb first; All in mono.",
    "Heard on verse.wav, as wired, not matched in loudness: Reverb beside.",
    "Heard on solo.wav, matched in loudness, folded to mono: All in mono.",
    "Blind trial: Reverb first preferred 9 of 10 times.",
    "The rig was changed on the page: this is of the changed rig.",
    "5 November 2026",
    "",
  ]);
});
