import { expect, test } from "vitest";
import { parseRig } from "../../../src/rig/file/parseRig.js";
import { takenIds } from "../../../src/rig/file/references.js";
import { pedalModels } from "../../../src/rig/pedals/models.js";
import { otherWords } from "../../../src/rig/pedals/otherWords.js";
import { dryId } from "../../../src/rig/wiring/dryWiring.js";
import { usualCoil } from "../../../src/rig/wiring/loadingNote.js";
import { defaultsOf } from "../../../src/sound/dsp/kernel.js";
import { UserError } from "../../../src/text/userError.js";
import { instrument, noAsks, soldBox } from "../../rigs.js";
import { faultsOf, goodRig } from "./faultsOf.js";

test("a short rig is filled in with every default", () => {
  const rig = parseRig(goodRig(), "rig.yaml");
  expect(rig).toEqual({
    name: "Test",
    take: null,
    takeInto: { ohms: null, picofarads: null },
    playsInto: "stereo-desk",
    pedals: [pedal("Swing", "tremolo", "mono-to-stereo"), pedal("Echo", "delay", "mono")],
    onHand: [],
    boxes: { splitter: [soldBox()], "summing-box": [soldBox()], mixer: [soldBox()] },
    currency: "EUR",
    mixer: { dryDb: 0, returnDb: null, returnPan: 0 },
    reference: null,
    instrument: instrument(),
    destination: { inputOhms: null, maxInputDbu: null },
    cables: { instrumentMetres: 6, patchMetres: 0.3, outputMetres: 6, picofaradsPerMetre: 100 },
    stereoUnit: {},
    secondUnit: {},
    wirings: {},
    places: {},
    asks: noAsks,
  });
  expect(Object.keys(rig.pedals[0].settings)).toEqual(Object.keys(pedalModels.tremolo.settings));
});

const unknown = {
  price: null,
  supply: null,
  size: null,
  inputOhms: null,
  outputOhms: null,
  maxInputDbu: null,
  maxOutputDbu: null,
};
const pedal = (name: string, model: string, jacks: string) => ({
  name,
  model,
  jacks,
  settings: defaultsOf(pedalModels[model].settings),
  ...unknown,
  latencyMs: 0,
  levelDb: 0,
  invertsPolarity: false,
  canGoFullyWet: true,
  dryPath: "crossfade",
  dryLeakDb: -6,
  whenOff: "true-bypass",
  hasFootswitch: true,
  alternatives: [],
});

test("boxes, differences and wirings are read in their short forms", () => {
  const rig = parseRig(
    goodRig(`onHand:
  - { box: splitter, outputs: 3, buffered: false }
  - { box: mixer, pairs: 4, count: 2 }
  - { box: summing-box }
boxes: { mixer: { price: 175, supply: { volts: 9, milliamps: 80 }, sizeMm: { width: 120, depth: 95 } } }
stereoUnit: { settings: { mix: 0.4 }, Echo: { delayMs: 300 } }
secondUnit: { Echo: { delayMs: 390 } }
wirings:
  mine:
    boxes:
      u: { box: pedal, pedal: Swing }
      m: { box: mixer, inputs: [{ pan: -1 }, { gainDb: -3 }] }
    cables: ["take:out > u:in", "u : out left>m:in 1", "u:out right > m:in 2", "m:out left > destination:in left", "m:out right > destination:in right"]
`),
    "rig.yaml",
  );
  expect(rig.onHand).toEqual([
    { box: "splitter", count: 1, outputs: 3, inputs: 0, pairs: 0, buffered: false, mutes: false },
    { box: "mixer", count: 2, outputs: 0, inputs: 0, pairs: 4, buffered: false, mutes: false },
    { box: "summing-box", count: 1, outputs: 0, inputs: 2, pairs: 0, buffered: false, mutes: false },
  ]);
  expect(rig.boxes.mixer[0].size).toEqual({ widthMm: 120, depthMm: 95 });
  expect(rig.stereoUnit).toEqual({ "*": { mix: 0.4 }, Echo: { delayMs: 300 } });
  expect(rig.secondUnit).toEqual({ Echo: { delayMs: 390 } });
  expect(rig.wirings.mine.label).toBe("mine");
  expect(rig.wirings.mine.cables[1]).toEqual({ from: "u:out left", to: "m:in 1" });
  expect(rig.wirings.mine.boxes.m).toEqual({
    box: "mixer",
    inputs: [
      { gainDb: 0, pan: -1 },
      { gainDb: -3, pan: 0 },
    ],
    outputs: 2,
  });
});

/** Each: what is wrong, and the whole line that tells it. Line 3 is the tremolo's; extra lines begin at 5. */
test.each([
  [
    "out of range",
    "",
    "depth: 1.4",
    "rig.yaml:3:78: depth is 1.4; a tremolo's depth goes from 0 to 1. Write 1 for the most.",
  ],
  [
    "under the range",
    "",
    "lfoHz: 0",
    "rig.yaml:3:78: lfoHz is 0; a tremolo's lfoHz goes from 0.1 to 20 Hz. Write 0.1 for the least.",
  ],
  [
    "number with its unit",
    "",
    "lfoHz: 4 Hz",
    'rig.yaml:3:78: lfoHz is "4 Hz"; a tremolo\'s lfoHz is a number from 0.1 to 20 Hz. Write 4, without quotes and unit.',
  ],
  [
    "not a number",
    "",
    "depth: .nan",
    "rig.yaml:3:78: depth is not a number (.nan); a tremolo's depth goes from 0 to 1.",
  ],
  [
    "infinite",
    "",
    "depth: .inf",
    "rig.yaml:3:78: depth is infinite (.inf); a tremolo's depth goes from 0 to 1. Write 1 for the most.",
  ],
  ["empty", "", "depth: ", "rig.yaml:3:71: depth is empty; a tremolo's depth is a number from 0 to 1."],
  ["a list", "", "depth: [1]", "rig.yaml:3:78: depth is a list; a tremolo's depth is a number from 0 to 1."],
  [
    "unknown word",
    "",
    "wave: sinus",
    'rig.yaml:3:77: wave is "sinus"; a tremolo\'s wave is one of sine, triangle. Did you mean sine?',
  ],
  [
    "unknown setting",
    "",
    "dept: 1",
    'rig.yaml:3:71: "dept" is not known here; the settings of a tremolo are lfoHz, depth, wave, law, secondOutput, spreadDegrees, phaseDegrees. Did you mean depth?',
  ],
  [
    "a decimal comma, which leaves a depth of 0 if its rest is taken out",
    "",
    "depth: 0,3",
    'rig.yaml:3:80: "3" is not known here; the settings of a tremolo are lfoHz, depth, wave, law, secondOutput, spreadDegrees, phaseDegrees. Decimals take a point, as in 0.3: a comma begins a new entry.',
  ],
  [
    "per cent",
    "",
    "depth: 30",
    "rig.yaml:3:78: depth is 30; a tremolo's depth goes from 0 to 1. Write 0.3 if 30 % is meant, 1 for the most.",
  ],
  [
    "seconds for milliseconds",
    "secondUnit: { Echo: { delayMs: 0.43 } }",
    "",
    "rig.yaml:5:32: delayMs is 0.43; a delay's delayMs goes from 1 to 2000 ms. Write 430 if 0.43 s is meant, 1 for the least.",
  ],
  [
    "kilohertz for hertz",
    "secondUnit: { Echo: { toneHz: 4.5 } }",
    "",
    "rig.yaml:5:31: toneHz is 4.5; a delay's toneHz goes from 500 to 20000 Hz. Write 4500 if 4.5 kHz is meant, 500 for the least.",
  ],
  [
    "unknown key",
    "playInto: one-amp",
    "",
    'rig.yaml:5:1: "playInto" is not known here; a rig has name, take, playsInto, pedals, onHand, boxes, currency, mixer, reference, instrument, destination, cables, stereoUnit, secondUnit, wirings, places, asks, sweep. Did you mean playsInto?',
  ],
  [
    "unknown destination",
    "playsInto: two-amp",
    "",
    'rig.yaml:5:12: playsInto is "two-amp"; a rig\'s playsInto is one of stereo-desk, two-amps, one-amp, mono-desk. Did you mean two-amps?',
  ],
  [
    "unknown box",
    "onHand: [{ box: spliter }]",
    "",
    'rig.yaml:5:17: box is "spliter"; a box on hand\'s box is one of splitter, summing-box, mixer. Did you mean splitter?',
  ],
  [
    "not whole",
    "onHand: [{ box: splitter, outputs: 2.5 }]",
    "",
    "rig.yaml:5:36: outputs is 2.5; a splitter's outputs is a whole number from 2 to 64. Write 2 or 3.",
  ],
  [
    "yes for true",
    "onHand: [{ box: splitter, buffered: yes }]",
    "",
    'rig.yaml:5:37: buffered is "yes"; a splitter\'s buffered is true or false. Write true.',
  ],
  [
    "a word for a map",
    "mixer: loud",
    "",
    'rig.yaml:5:8: mixer is "loud"; a rig\'s mixer is a map of dryDb, returnDb and returnPan.',
  ],
  [
    "currency",
    "currency: euro",
    "",
    'rig.yaml:5:11: currency is "euro"; a rig\'s currency is a code of three capitals (ISO 4217). Write it like "EUR".',
  ],
  [
    "unit that is no pedal",
    "stereoUnit: { Ecko: { mix: 1 } }",
    "",
    'rig.yaml:5:15: "Ecko" is no pedal of this rig; here stands Swing, Echo or settings. Did you mean Echo?',
  ],
  [
    "unit's setting",
    "secondUnit: { Echo: { delayMs: 0 } }",
    "",
    "rig.yaml:5:32: delayMs is 0; a delay's delayMs goes from 1 to 2000 ms. Write 1 for the least.",
  ],
  [
    "all units' setting",
    "stereoUnit: { settings: { mixx: 0 } }",
    "",
    /^rig\.yaml:5:27: "mixx" is no setting of this rig's mono pedals; they have .*\. Did you mean mix\?$/,
  ],
  [
    "taken id",
    "wirings: { parallel: { boxes: {}, cables: ['take:out > destination:in'] } }",
    "",
    /^rig\.yaml:5:12: "parallel" has a meaning already/,
  ],
  [
    "no id",
    "wirings: { My Way: { boxes: {}, cables: [] } }",
    "",
    'rig.yaml:5:12: "My Way" is no id; the id of a wiring has 1 to 40 small letters, digits and hyphens, as in "split-1".',
  ],
  [
    "no cable",
    "wirings: { mine: { boxes: {}, cables: [take to amp] } }",
    "",
    'rig.yaml:5:40: cable is "take to amp"; a cable is "box:jack > box:jack". Write it like "take:out > split:in".',
  ],
  [
    "unknown box of a cable",
    "wirings: { mine: { boxes: { echo: { box: pedal, pedal: Echo } }, cables: ['take:out > ecko:in'] } }",
    "",
    'rig.yaml:5:75: "ecko" is no box of this wiring; its boxes are take, destination, echo. Did you mean echo?',
  ],
  [
    "unknown pedal of a wiring",
    "wirings: { mine: { boxes: { echo: { box: pedal, pedal: Ecko } }, cables: [] } }",
    "",
    'rig.yaml:5:56: pedal is "Ecko"; the pedals of this rig are Swing, Echo. Did you mean Echo?',
  ],
  [
    "a box of its own",
    "wirings: { mine: { boxes: { take: { box: splitter } }, cables: [] } }",
    "",
    'rig.yaml:5:29: every wiring has its "take" already. Take this box out.',
  ],
  [
    "unknown jack",
    "wirings: { mine: { boxes: { echo: { box: pedal, pedal: Echo } }, cables: ['take:out > echo:in', 'echo:send > destination:in'] } }",
    "",
    /^rig\.yaml:5:97: "echo" has no output jack "send"/,
  ],
  [
    "loop",
    "wirings: { mine: { boxes: { s: { box: summing-box }, echo: { box: pedal, pedal: Echo } }, cables: ['take:out > s:in 1', 'echo:out > s:in 2', 's:out > echo:in'] } }",
    "",
    "rig.yaml:5:121: s > echo > s is a loop; a signal may not come back to a box it left. Take one of these cables out.",
  ],
])("%s", (_what, extra, settings, line) => {
  const faults = faultsOf(goodRig(extra, settings));
  expect(faults).toHaveLength(1);
  if (typeof line === "string") expect(faults[0]).toBe(line);
  else expect(faults[0]).toMatch(line);
});

test("every fault is told at once, in the order of the file, also where the model is unknown", () => {
  const faults = faultsOf(`name: Test
colour: red
pedals:
  - { name: Swing, model: tremelo, jacks: stero }
  - { model: delay, jacks: mono, price: -1 }
currency: 3
`);
  expect(faults.map((line) => line.split(";")[0])).toEqual([
    'rig.yaml:2:1: "colour" is not known here',
    'rig.yaml:4:27: model is "tremelo"',
    'rig.yaml:4:43: jacks is "stero"',
    "rig.yaml:5:5: name is missing",
    "rig.yaml:5:41: price is -1",
    "rig.yaml:6:11: currency is 3",
  ]);
});

test("names may differ by more than capitals only; the first is named", () => {
  const faults = faultsOf(goodRig("  - { name: ' eCHo', model: delay, jacks: mono }"));
  expect(faults).toEqual([
    'rig.yaml:5:13: name is " eCHo"; pedal 2 in line 4 has that name (capitals do not count). Give each pedal a name of its own.',
  ]);
});

test.each([
  ["nothing", "", "rig.yaml: is empty;"],
  ["comments alone", "# a rig\n", "rig.yaml: is empty;"],
  ["a list", "- a\n", "rig.yaml: holds a list;"],
  ["no pedals", "name: A\n", "rig.yaml:1:1: pedals is missing; a rig's pedals is a list."],
  [
    "an empty list",
    "name: A\npedals: []\n",
    "rig.yaml:2:9: pedals is an empty list; a rig has 1 to 64 pedals",
  ],
  [
    "200 pedals",
    `name: A\npedals:\n${"  - nonsense\n".repeat(200)}`,
    "rig.yaml:3:3: pedals lists 200; a rig has 1 to 64 pedals.",
  ],
])("%s is refused in one line", (_what, text, start) => {
  const faults = faultsOf(text);
  expect(faults).toHaveLength(1);
  expect(faults[0].slice(0, start.length)).toBe(start);
});

test("64 pedals are a rig, 65 are not", () => {
  const rig = (count: number) =>
    `name: A\npedals:\n${Array.from({ length: count }, (_, n) => `  - { name: P${n}, model: boost, jacks: mono }\n`).join("")}`;
  expect(faultsOf(rig(64))).toEqual([]);
  expect(faultsOf(rig(65))).toHaveLength(1);
});

test("a flood of faults is cut with its count", () => {
  const faults = faultsOf(`name: A\npedals:\n${"  - { kind: x }\n".repeat(30)}`);
  expect(faults).toHaveLength(41);
  // Each pedal has an unknown key and lacks name, model and jacks: 120 faults.
  expect(faults[40]).toBe("rig.yaml: and 80 more faults. Mend these first.");
});

test("names keep slashes and quotes and length, and lose nothing to a terminal", () => {
  const name = `a/b\\"c' ${"x".repeat(280)}`;
  expect(parseRig(goodRig().replace("name: Test", `name: ${JSON.stringify(name)}`), "r").name).toBe(name);
  // A control sequence that would clear the screen, and a mark that turns the direction of writing.
  const faults = faultsOf(goodRig().replace("name: Test", 'name: "a\\e[2Jb\\u202ec"'));
  expect(faults).toEqual([
    'rig.yaml:1:7: name is "a\\u001b[2Jb\\u202ec"; a rig\'s name has no control characters. Take the \\u characters out.',
  ]);
});

test("words of the language are no models and no keys", () => {
  for (const word of ["constructor", "__proto__", "toString"]) {
    expect(faultsOf(goodRig().replace("model: tremolo", `model: ${word}`))[0]).toContain(
      `model is "${word}"`,
    );
    expect(faultsOf(goodRig(`${word}: 1`))[0]).toContain(`"${word}" is not known here`);
    expect(faultsOf(goodRig("", `${word}: 1`))[0]).toContain(`"${word}" is not known here`);
  }
});

/** The tables are the one place of bounds: a value just past each end is refused with both ends named. */
test.each(Object.entries(pedalModels))("every bound of %s is held", (model, { settings }) => {
  for (const [key, setting] of Object.entries(settings)) {
    if (!("min" in setting)) continue;
    for (const [value, end] of [
      [setting.max * 1.01 + 1, setting.max],
      [setting.min - 1, setting.min],
    ] as const) {
      const faults = faultsOf(
        `name: A\npedals: [{ name: P, model: ${model}, jacks: mono, settings: { ${key}: ${value} } }]`,
      );
      const line = faults.find((fault) => fault.includes(`${key} is ${value};`));
      expect(line, `${model} ${key}`).toContain(`from ${setting.min} to ${setting.max}`);
      if (!setting.whole) expect(line).toContain(`${end} for the`);
    }
  }
});

test("a model that needs a file says so", () => {
  const rig = (settings: string) => `name: A\npedals: [{ name: P, model: response, jacks: mono${settings} }]`;
  expect(faultsOf(rig(""))[0]).toMatch(
    /^rig\.yaml:2:10: settings is missing; a response's settings is a map of file, /,
  );
  expect(faultsOf(rig(", settings: { file: '' }"))).toEqual([
    'rig.yaml:2:69: file is ""; a response\'s file is text of 1 to 1000 characters.',
  ]);
  expect(faultsOf(rig(", settings: { file: room.wav }"))).toEqual([]);
});

test("the word of the dry take is taken", () => {
  expect(takenIds).toContain(dryId);
});

/** What every object of the language has is neither found in a table of words nor taken as a key. */
test.each(["constructor", "__proto__", "toString"])("%s is a word like any other, and no name", (word) => {
  const pedal = `{ name: P, model: chorus, jacks: mono-to-stereo, invertsPolarity: ${word} }`;
  expect(faultsOf(`name: A\npedals: [${pedal}]\n`)).toEqual([
    `rig.yaml:2:76: invertsPolarity is "${word}"; a pedal's invertsPolarity is true or false.`,
  ]);
  expect(faultsOf(`name: A\npedals: [{ name: ${word}, model: chorus, jacks: mono-to-stereo }]\n`)).toEqual([
    `rig.yaml:2:18: name is "${word}"; that word has a meaning in the language of the program. Choose another name.`,
  ]);
});

test("a wiring and a box of such a name are refused", () => {
  const boxes = "boxes: { constructor: { box: splitter } }, cables: []";
  expect(faultsOf(goodRig(`wirings:\n  constructor: { ${boxes} }\n`))).toEqual([
    'rig.yaml:6:3: "constructor" is no id; that word has a meaning in the language of the program. Give the wiring another id.',
    'rig.yaml:6:27: "constructor" is no id; that word has a meaning in the language of the program. Give the box another id.',
  ]);
});

test("a wiring of more boxes than ways can be followed through, and more wirings than a person compares", () => {
  const many = (count: number, line: (n: number) => string) =>
    Array.from({ length: count }, (_, n) => line(n));
  const boxes = many(257, (n) => `b${n}: { box: splitter }`);
  expect(faultsOf(goodRig(`wirings: { w: { cables: [], boxes: { ${boxes.join(", ")} } } }`))).toEqual([
    "rig.yaml:5:36: a wiring has at most 256 boxes. Take out what it can do without.",
  ]);
  const wirings = many(65, (n) => `w${n}: { cables: [], boxes: {} }`);
  expect(faultsOf(goodRig(`wirings: { ${wirings.join(", ")} }`))).toEqual([
    "rig.yaml:5:10: a rig has at most 64 wirings. Take out those that you would not build.",
  ]);
});

/** Each of these took minutes, by the square of its length, or ended in a stack. */
test.each([
  [
    "keys",
    goodRig(Array.from({ length: 90_000 }, (_, n) => `k${n}: 1`).join("\n")),
    "1:1: is a map of 90002 entries; a rig's have at most 1000. Take out what the rig does not need.",
  ],
  [
    "settings",
    goodRig("", Array.from({ length: 60_000 }, (_, n) => `k${n}: 1`).join(", ")),
    "3:69: is a map of 60000 entries; a rig's have at most 1000. Take out what the rig does not need.",
  ],
  [
    "a cable of spaces",
    goodRig(`wirings: { w: { boxes: {}, cables: ["a:b>${" ".repeat(400_000)}"] } }`),
    `5:37: cable is "a:b>${" ".repeat(56)}..."; a cable is "box:jack > box:jack". Write it like "take:out > split:in".`,
  ],
  [
    "digits in a range",
    goodRig(`sweep: { vary: [{ mixer.returnDb: "${"1".repeat(400_000)}.2/3" }] }`),
    `5:35: "mixer.returnDb" cannot be "${"1".repeat(60)}..."; it goes from -60 to 12 dB, as a range FROM..TO/STEPS or a list.`,
  ],
  [
    "values",
    goodRig(`sweep: { vary: [{ mixer.returnDb: "${"1,".repeat(400_000)}1" }] }`),
    '5:35: "mixer.returnDb" takes 400001 values; at most 100000. Take some out.',
  ],
])("%s without end are refused, in a time that grows with their number", (_what, text, says) => {
  expect(faultsOf(text)).toEqual([`rig.yaml:${says}`]);
});

test.each([
  ["reverb", "plate, hall or spring"],
  ["Fuzz", "overdrive"],
])("a %s is told as what it may be here", (word, models) => {
  expect(faultsOf(`name: A\npedals: [{ name: P, model: ${word}, jacks: mono-to-stereo }]\n`)).toEqual([
    expect.stringMatching(new RegExp(`^rig\\.yaml:2:28: model is "${word}"; .*\\. Write ${models}\\.$`)),
  ]);
});

test("every model that another word is told as is one", () => {
  for (const [, models] of otherWords) for (const model of models) expect(pedalModels).toHaveProperty(model);
});

test("faults have their place as fields", () => {
  try {
    parseRig(goodRig("", "depth: 2"), "rig.yaml");
    expect.unreachable();
  } catch (error) {
    expect(error).toBeInstanceOf(UserError);
    if (error instanceof UserError) {
      expect(error.exitStatus).toBe(2);
      expect(error.faults[0]).toMatchObject({ file: "rig.yaml", line: 3, column: 78 });
    }
  }
});

test("a take is a file's name, or a map with what it was played into", () => {
  const read = (take: string) => {
    const { take: file, takeInto } = parseRig(goodRig(take), "rig.yaml");
    return { file, ...takeInto };
  };
  expect(read("take: a.wav")).toEqual({ file: "a.wav", ohms: null, picofarads: null });
  expect(read("take: { file: a.wav, into: { ohms: 47000 } }")).toEqual({
    file: "a.wav",
    ohms: 47_000,
    picofarads: null,
  });
  expect(read("take: { into: { picofarads: 0 } }")).toEqual({ file: null, ohms: null, picofarads: 0 });
  const faults = (take: string) => faultsOf(goodRig(take));
  expect(faults("take: { into: { ohms: 0.5 } }")).toEqual([
    expect.stringMatching(/^rig\.yaml:5:\d+: ohms is 0.5; a take's ohms goes from 1 to 100000000 ohms/),
  ]);
  expect(faults("take: { int: {} }")).toEqual([expect.stringContaining('"int" is not known here')]);
  expect(faults("take: 5")).toEqual([expect.stringContaining("take is 5; a rig's take is text")]);
});

test("a kind of pickup fills in what the rig does not give of it", () => {
  const read = (text: string) => parseRig(goodRig(`instrument: ${text}`), "rig.yaml").instrument;
  expect(read("{ pickup: humbucking, henries: 6 }")).toEqual(
    instrument({ pickup: "humbucking", outputOhms: 8000, henries: 6, picofarads: 130 }),
  );
  expect(read("{ pickup: single-coil }")).toMatchObject({ outputOhms: 6000, henries: 2.5, picofarads: 110 });
  expect(faultsOf(goodRig("instrument: { pickup: humbuckin }"))[0]).toMatch(
    /^rig\.yaml:5:\d+: .*one of single-coil, humbucking/,
  );
});

test("a usual coil is told as one, and only where it was taken", () => {
  const told = (text: string) => usualCoil(parseRig(goodRig(`instrument: ${text}`), "rig.yaml").instrument);
  expect(told("{ pickup: humbucking, henries: 6 }")).toEqual([
    expect.stringMatching(
      /^Of the pickup 8 kilohms and 130 pF are usual for its kind \(humbucking\), not measured/,
    ),
  ]);
  expect(told("{ pickup: humbucking, henries: 6, outputOhms: 9000, picofarads: 100 }")).toEqual([]);
  expect(told("{ henries: 4.5 }")).toEqual([]);
});
