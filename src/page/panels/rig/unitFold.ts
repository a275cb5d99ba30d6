import { listAt, valueAt } from "../../../rig/file/dataAt.js";
import { freeName } from "../../../rig/file/pedalEdits.js";
import type { Path } from "../../../rig/file/yaml.js";
import { placeChoices } from "../../../rig/model/rig.js";
import { placeRules } from "../../../rig/routings/places/places.js";
import { capital } from "../../../text/words.js";
import { fieldsAt } from "../../widgets/form/fieldsAt.js";
import { fold, grid, group, shownIf, together } from "../../widgets/form/fold.js";
import { type Choice, choiceField, markField, type RigPart, set } from "../../widgets/form/rigFields.js";
import type { View } from "../view.js";
import { listPart } from "./listPart.js";
import { pedalFacts } from "./pedalFacts.js";
import { modelChoices, modelEdits } from "./pedalKinds.js";
import { rolesOf, unitNames } from "./roles.js";
import { settingsPart } from "./settingsPart.js";
import { soundFileField } from "./soundFileField.js";

/** All that is to be decided about a mono unit: there for one, and for a pedal that the rest of the file takes for one. */
export function unitFold(view: View, path: () => Path, owner: () => string): RigPart {
  const { desk } = view.bench;
  const name = () => String(valueAt(desk.data, [...path(), "name"]) ?? "");
  const isMeant = () =>
    rolesOf(desk.data)[Number(path()[1])] === "unit" || isSpokenOf(desk.data, path(), name());
  return shownIf(
    isMeant,
    fold(
      "As a mono unit: its place, the player's asks, others in its stead",
      "",
      together("facts-grid", placeField(view, name, owner), ...askMarks(view, name, owner)),
      group("Others that could stand in its place", alternatives(view, path, owner)),
      difference(view, path, name, owner, "secondUnit"),
      difference(view, path, name, owner, "stereoUnit"),
    ),
  );
}

function isSpokenOf(data: unknown, path: Path, name: string): boolean {
  return (
    valueAt(data, ["places", name]) !== undefined ||
    [...listAt(data, ["asks", "order"]), ...listAt(data, ["asks", "sameUnit"])].includes(name) ||
    listAt(data, [...path, "alternatives"]).length > 0
  );
}

const placeWords: readonly Choice[] = [
  ["", "not chosen"],
  ...placeChoices.map((place): Choice => [place, capital(placeRules[place].does("its wet sound"))]),
];

/** A plan of one's own: compared beside the rest as soon as one unit has a place. */
function placeField({ bench: { desk } }: View, name: () => string, owner: () => string): RigPart {
  const place = {
    path: () => ["places", name()],
    label: "its place in a plan of your own",
    owner,
    hint: "compared beside the rest; units without one go where a builder tries first",
  };
  return choiceField(desk, place, placeWords, {
    onSet: (word) => set(desk, place, word === "" ? undefined : word),
  });
}

const asked = [
  ["order", "must stay behind the pedals ahead of it"],
  ["sameUnit", "must be this very unit, and no other"],
] as const;

/** In the file a list of names, or true for all units. */
function askMarks({ bench: { desk } }: View, name: () => string, owner: () => string): readonly RigPart[] {
  return asked.map(([key, label]) => {
    const list = (): readonly unknown[] =>
      valueAt(desk.data, ["asks", key]) === true ? unitNames(desk.data) : listAt(desk.data, ["asks", key]);
    const path = () => {
      const at = listAt(desk.data, ["asks", key]).indexOf(name());
      return at < 0 ? ["asks", key] : ["asks", key, at];
    };
    return markField(
      desk,
      { path, label, owner },
      () => list().includes(name()),
      (on) => {
        const rest = list().filter((each) => each !== name());
        const names = on ? [...rest, name()] : rest;
        const to = names.length > 0 ? names : undefined;
        desk.edit(`${owner()} ${label}`, [{ set: ["asks", key], to }]);
      },
    );
  });
}

function alternatives(view: View, path: () => Path, owner: () => string): RigPart {
  const { desk } = view.bench;
  return listPart(desk, {
    path: () => [...path(), "alternatives"],
    add: "Add another in its place",
    fresh: () => {
      const model = valueAt(desk.data, [...path(), "model"]);
      const settings = valueAt(desk.data, [...path(), "settings"]);
      return {
        name: freeName(desk.data, `${owner()} in stereo`),
        model,
        jacks: "stereo",
        ...(settings === undefined ? {} : { settings }),
      };
    },
    called: (n) => `other ${n + 1} for ${owner()}`,
    row: (at, called) => {
      const { text, place } = fieldsAt(desk, at, called);
      const kind = place("kind", ["model"]);
      const model = () => valueAt(desk.data, [...at(), "model"]);
      return together(
        "other",
        grid(
          text("name", ["name"]),
          choiceField(desk, kind, modelChoices, {
            onSet: (word) => desk.edit(`${called()}, kind`, modelEdits(desk.data, at(), word)),
          }),
          choiceField(desk, place("jacks", ["jacks"]), [
            ["mono", "one in, one out"],
            ["stereo", "left and right, in and out"],
          ]),
        ),
        soundFileField(view, at, called),
        fold(
          "Its settings",
          "",
          settingsPart(desk, { path: () => [...at(), "settings"], model, owner: called }),
        ),
        pedalFacts(desk, at, called),
      );
    },
  });
}

const differenceWords = {
  secondUnit: [
    "How a second one differs",
    "Knobs of two units never match exactly. What is left empty is as on the first.",
    "as on the first",
  ],
  stereoUnit: [
    "How a stereo unit in its place differs",
    "Where the rig names no other, a stereo one of the same kind is compared. What is left empty is as on this one.",
    "as on this one",
  ],
} as const;

function difference(
  { bench: { desk } }: View,
  path: () => Path,
  name: () => string,
  owner: () => string,
  key: keyof typeof differenceWords,
): RigPart {
  const [words, hint, otherwise] = differenceWords[key];
  return fold(
    words,
    hint,
    settingsPart(desk, {
      path: () => [key, name()],
      model: () => valueAt(desk.data, [...path(), "model"]),
      owner: () => `${owner()}: ${words.toLowerCase()}`,
      otherwise,
    }),
  );
}
