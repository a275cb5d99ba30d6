import { expect, test } from "vitest";
import { StoredWork } from "../../../src/page/live/desk/storedWork.js";

/** A store as a browser has it. */
function fakeStore() {
  const kept = new Map<string, string>();
  return {
    kept,
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
  };
}
const rig = { file: "rig.yaml", text: "name: B\n" };

test("work comes back to the page that it was done on, and to no other", () => {
  const store = fakeStore();
  expect(new StoredWork(store, "/a.html", "name: A\n").write(rig)).toBe(true);
  expect(new StoredWork(store, "/a.html", "name: A\n").read()).toEqual(rig);
  expect(new StoredWork(store, "/b.html", "name: A\n").read()).toBeNull();
  expect(new StoredWork(store, "/a.html", "name: made anew\n").read()).toBeNull();
});

test("nothing is kept of a rig that is as it came", () => {
  const store = fakeStore();
  const work = new StoredWork(store, "/a.html", "name: A\n");
  work.write(rig);
  work.write({ file: "rig.yaml", text: "name: A\n" });
  expect(store.kept.size).toBe(0);
});

test("a browser that keeps nothing, or something else, does no harm", () => {
  const refusing = {
    ...fakeStore(),
    setItem: () => {
      throw new Error("full");
    },
  };
  expect(new StoredWork(refusing, "/a", "x").write(rig)).toBe(false);
  expect(new StoredWork(null, "/a", "x").write(rig)).toBe(false);
  expect(new StoredWork(null, "/a", "x").read()).toBeNull();
  const odd = fakeStore();
  odd.kept.set("splitsum /a", "{");
  expect(new StoredWork(odd, "/a", "x").read()).toBeNull();
});
