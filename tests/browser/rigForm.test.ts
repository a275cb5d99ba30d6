import type { Page } from "playwright-core";
import { beforeAll, beforeEach, expect, test } from "vitest";
import { pedal, rigOf } from "../rigs.js";
import { axeFindings } from "./axe.js";
import { tabTo } from "./byKeyboard.js";
import { describeInChromium } from "./chromium.js";
import { useFacePage } from "./facePage.js";

/** A split, a stereo pedal, and a mono unit behind them. */
const rig = rigOf(
  [
    pedal("Swing", "vibrato", "mono-to-stereo"),
    pedal("Ledger", "delay", "stereo", { delayMs: 90 }),
    pedal("Tank", "plate", "mono"),
  ],
  { name: "Form" },
);

describeInChromium("the rig as a form", (open) => {
  const face = useFacePage(rig);
  let page: Page;
  let begun: string;
  beforeAll(async () => {
    ({ page } = await open(face().file, { viewport: { width: 1366, height: 768 } }));
    begun = await page.evaluate(() => window.fakeBench.desk.text);
  });
  // One page for all: each test begins with the rig that it came with, and all folded.
  beforeEach(() =>
    page.evaluate((text) => {
      for (const node of document.querySelectorAll<HTMLDetailsElement>("#rig details")) node.open = false;
      window.fakeBench.desk.open("rig.yaml", text);
    }, begun),
  );

  const names = () => page.evaluate(() => window.fakeBench.rig.pedals.map(({ name }) => name).join(", "));
  const focused = () => page.evaluate(() => document.activeElement?.getAttribute("aria-label"));
  const openAll = () =>
    page.evaluate(() => {
      for (const node of document.querySelectorAll<HTMLDetailsElement>("#rig .rig-form details"))
        node.open = true;
    });
  const type = async (label: string, words: string) => {
    const field = page.getByLabel(label, { exact: true });
    await field.fill(words);
    await field.press("Tab");
  };
  const row = (name: string) => page.locator(".pedal-row", { has: page.getByLabel(`${name}, name`) });

  test("a pedal is added by kind, then model, then jacks, and its name has the focus", async () => {
    const adder = page.locator(".adder");
    await adder
      .getByLabel("Add a pedal at the end")
      .selectOption({ label: "Reverb (reverb, verb, ambience)" });
    await adder.getByLabel("Which").selectOption("hall");
    await adder.getByLabel("Jacks").selectOption("stereo");
    await adder.getByRole("button", { name: "Add" }).click();
    expect(await focused()).toBe("Reverb, name");
    const added = await page.evaluate(() => window.fakeBench.rig.pedals[3]);
    expect([added.name, added.model, added.jacks]).toEqual(["Reverb", "hall", "stereo"]);
    await adder.getByLabel("Add a pedal at the end").selectOption("Delay");
    expect(await adder.getByLabel("Which").isVisible()).toBe(false);
  });

  test("mono units and the split are told in words, and change with the jacks", async () => {
    const split = page.locator(".split");
    expect(await split.textContent()).toBe(
      "The sound splits at Swing. One mono unit comes after that: Tank.",
    );
    expect(await row("Tank").getAttribute("data-role")).toBe("unit");
    await row("Tank").getByLabel("Tank, jacks", { exact: true }).selectOption("stereo");
    expect(await split.textContent()).toContain("no mono unit comes after that");
    expect(await row("Tank").getAttribute("data-role")).toBe("stereo");
  });

  test("Alt and arrows move a pedal from any of its fields, which keeps the focus and what is being typed", async () => {
    const field = page.getByLabel("Tank, name");
    await field.fill("Boiler");
    await page.keyboard.press("Alt+ArrowUp");
    expect(await names()).toBe("Swing, Boiler, Ledger");
    expect(await focused()).toBe("Boiler, name");
    await page.evaluate(() => window.fakeBench.desk.undo());
    expect(await names()).toBe("Swing, Ledger, Boiler");
    expect(await focused()).toBe("Boiler, name");
    await page.keyboard.press("Alt+ArrowUp");
    await page.keyboard.press("Alt+ArrowUp");
    await page.keyboard.press("Alt+ArrowUp");
    expect(await names()).toBe("Boiler, Swing, Ledger");
    expect(await focused()).toBe("Boiler, name");
  });

  test("Earlier and Later keep the focus on the pedal, and hand it on at the end of the chain", async () => {
    await page.getByRole("button", { name: "Later in the chain: Swing" }).focus();
    await page.keyboard.press("Enter");
    expect(await focused()).toBe("Later in the chain: Swing");
    await page.keyboard.press("Enter");
    expect(await names()).toBe("Ledger, Tank, Swing");
    expect(await focused()).toBe("Earlier in the chain: Swing");
  });

  test("what is taken out hands the focus to what stands there then", async () => {
    await page.getByRole("button", { name: "Take out of the chain: Ledger" }).click();
    expect(await names()).toBe("Swing, Tank");
    expect(await focused()).toBe("Tank, name");
  });

  test("what is folded open goes along with its pedal", async () => {
    await row("Tank").getByText("What is known of it").click();
    await row("Tank").getByLabel("Tank, price").fill("90");
    await page.keyboard.press("Alt+ArrowUp");
    expect(await row("Tank").locator("details[open]").count()).toBe(1);
    expect(await row("Ledger").locator("details[open]").count()).toBe(0);
    expect(await focused()).toBe("Tank, price");
  });

  test.each(["mouse", "touch"] as const)(
    "a pedal is dragged by %s, a line shows where it would go",
    async (by) => {
      const from = await centre(page.getByRole("button", { name: /^Drag .*: Tank$/ }));
      const first = await row("Swing").boundingBox();
      const to = { x: from.x, y: (first?.y ?? 0) + 4 };
      const finger = await pointer(page, by);
      await finger.down(from);
      await finger.move({ x: from.x, y: from.y - 30 });
      await finger.move(to);
      await expect.poll(() => row("Swing").getAttribute("class")).toContain("drop-before");
      expect(await row("Tank").getAttribute("class")).toContain("dragged");
      await finger.up(to);
      await expect.poll(names).toBe("Tank, Swing, Ledger");
      expect(await page.locator(".drop-before, .drop-after, .dragged").count()).toBe(0);
    },
  );

  test("Escape gives a drag up", async () => {
    const from = await centre(page.getByRole("button", { name: /^Drag .*: Tank$/ }));
    const finger = await pointer(page, "mouse");
    await finger.down(from);
    await finger.move({ x: from.x, y: from.y - 300 });
    expect(await page.locator(".dragged").count()).toBe(1);
    await page.keyboard.press("Escape");
    expect(await page.locator(".drop-before, .drop-after, .dragged").count()).toBe(0);
    await finger.up(from);
    expect(await names()).toBe("Swing, Ledger, Tank");
  });

  test("while the text is no YAML the form rests, and the text stays as it was typed", async () => {
    await page.getByText("The rig file as text").click();
    const area = page.locator(".rig-text textarea");
    const typed = `name: [\n${begun}`;
    await area.fill(typed);
    await area.blur();
    expect(await area.inputValue()).toBe(typed);
    expect(await page.getByLabel("Tank, name").isDisabled()).toBe(true);
    await page.locator(".rig-faults").getByRole("button").first().click();
    expect(await area.evaluate((node) => node === document.activeElement)).toBe(true);
    await area.fill(begun.replace("Tank", "Boiler"));
    await area.blur();
    expect(await page.getByLabel("Boiler, name").isEnabled()).toBe(true);
  });

  test("a box on hand, a price, an ask, a place and an alternative stand in the file as a hand would write them", async () => {
    await openAll();
    await page.getByRole("button", { name: "Add a box on hand" }).click();
    await page.getByLabel("box 1 in the drawer, box").selectOption("mixer");
    await type("box 1 in the drawer, stereo inputs", "3");
    await type("A splitter to buy, price", "65");
    await page.getByRole("button", { name: "Add a size of splitter" }).click();
    expect(await focused()).toBe("A splitter to buy, size 2, outputs");
    await page.keyboard.type("4");
    await type("A splitter to buy, size 1, outputs", "2");
    await page.getByLabel("The player asks, stereo").selectOption("true");
    await type("The player asks, to spend", "200,50");
    await page.getByLabel("Tank, its place in a plan of your own").selectOption("beside");
    await page.getByLabel("Tank, must stay behind the pedals ahead of it").check();
    await page.getByRole("button", { name: "Add another in its place" }).click();
    await type("The take, input impedance, ohms", "500000");
    await page.getByLabel("The instrument, outputs").selectOption("2");
    expect(await page.evaluate(() => window.fakeBench.desk.faults)).toEqual([]);
    const { data } = await page.evaluate(() => ({
      data: window.fakeBench.desk.data as Record<string, unknown>,
    }));
    expect(data.onHand).toEqual([{ box: "mixer", pairs: 3 }]);
    expect(data.boxes).toMatchObject({ splitter: [{ price: 65, outputs: 2 }, { outputs: 4 }] });
    expect(data.asks).toMatchObject({ stereo: true, spendAtMost: 200.5, order: ["Tank"] });
    expect(data.places).toEqual({ Tank: "beside" });
    expect(data.take).toEqual({ into: { ohms: 500_000 } });
    expect(data.instrument).toMatchObject({ outputs: 2 });
    const [other] = await page.evaluate(() => window.fakeBench.rig.pedals[2].alternatives);
    expect([other.name, other.model, other.jacks]).toEqual(["Tank in stereo", "plate", "stereo"]);
  });

  /** The checks of the file are the law here: whatever they say is said at a field, in their words. */
  test("every fault that a number or a text can make is said at its own field", async () => {
    await page.evaluate((text) => window.fakeBench.desk.open("rig.yaml", text), fullYaml);
    const tried = await page.evaluate(() => {
      const { desk } = window.fakeBench;
      const said = () =>
        [...document.querySelectorAll("#rig .rig-form .fault")].map((node) => node.textContent ?? "");
      const inputs = [...document.querySelectorAll<HTMLInputElement>("#rig .rig-field input[type=text]")];
      return inputs
        .filter((input) => !input.closest("[hidden]"))
        .flatMap((input) =>
          (input.matches(".number") ? ["odd", "1e12"] : ["", "x\u0007"]).map((wrong) => {
            input.value = wrong;
            input.dispatchEvent(new Event("change"));
            const own = input.closest(".rig-field")?.querySelector(".fault")?.textContent ?? "";
            const all = said();
            const unsaid = desk.faults.filter(({ message }) => !all.some((words) => words.includes(message)));
            const found = {
              label: input.getAttribute("aria-label"),
              wrong,
              isTold: own !== "" && input.getAttribute("aria-invalid") === "true",
              unsaid: unsaid.map(({ message }) => message),
            };
            desk.undo();
            return found;
          }),
        );
    });
    expect(tried.length).toBeGreaterThan(180);
    expect(tried.filter(({ isTold, unsaid }) => !isTold || unsaid.length > 0)).toEqual([]);
    expect(await page.evaluate(() => window.fakeBench.desk.faults)).toEqual([]);
  });

  test("what the rest of the file says of a unit is told at the pedal when it is none any more", async () => {
    await page.evaluate((text) => window.fakeBench.desk.open("rig.yaml", text), fullYaml);
    await page.getByLabel("Tank, jacks", { exact: true }).selectOption("stereo");
    const faults = await page.evaluate(() => window.fakeBench.desk.faults.map(({ message }) => message));
    expect(faults.length).toBe(4);
    const said = (await row("Tank").locator(".fault:visible").allTextContents()).join(" ");
    for (const message of faults) expect(said).toContain(message);
    await page.getByLabel("Tank, jacks", { exact: true }).selectOption("mono");
    expect(await page.evaluate(() => window.fakeBench.desk.faults)).toEqual([]);
  });

  test("a plan of one's own says where it is to be heard", async () => {
    const note = page.getByText("Your plan stands among the choices");
    expect(await note.count()).toBe(0);
    await page.evaluate(() => {
      const bench = window.fakeBench;
      const report = bench.report;
      if (!report) return;
      const placed = { ...report.routings[1], id: "as-placed", label: "Reverb beside" };
      bench.report = { ...report, routings: [...report.routings, placed] };
      bench.tell("report");
      bench.report = report;
    });
    expect(await note.textContent()).toBe('Your plan stands among the choices as "Reverb beside".');
    await page.evaluate(() => window.fakeBench.tell("report"));
    expect(await note.count()).toBe(0);
  });

  test("the whole form is worked by keyboard alone", async () => {
    const { keyboard } = page;
    await page.locator("#rig input[type=file]").first().focus();
    await tabTo(page, "Add a pedal at the end");
    await keyboard.type("Rev");
    await tabTo(page, "Which");
    await keyboard.type("Spr");
    await tabTo(page, "Jacks");
    await keyboard.press("Home");
    await tabTo(page, "Add");
    await keyboard.press("Enter");
    expect(await focused()).toBe("Reverb, name");
    await keyboard.press("Control+a");
    await keyboard.type("Spring box");
    await keyboard.press("Alt+ArrowUp");
    expect(await names()).toBe("Swing, Ledger, Spring box, Tank");
    await tabTo(page, "As a mono unit");
    await keyboard.press("Enter");
    await tabTo(page, "Spring box, its place");
    await keyboard.type("Ah");
    await tabTo(page, "Spring box, must stay behind");
    await keyboard.press("Space");
    await tabTo(page, "Earlier in the chain: Tank");
    await keyboard.press("Enter");
    expect(await names()).toBe("Swing, Ledger, Tank, Spring box");
    await tabTo(page, "What the player asks");
    await keyboard.press("Enter");
    await tabTo(page, "The player asks, to spend");
    await keyboard.type("150");
    await tabTo(page, "The rig file as text");
    await keyboard.press("Enter");
    const data = await page.evaluate(() => window.fakeBench.desk.data);
    expect(data).toMatchObject({
      places: { "Spring box": "first" },
      asks: { order: ["Spring box"], spendAtMost: 150 },
    });
    expect(await page.evaluate(() => window.fakeBench.desk.faults)).toEqual([]);
    await tabTo(page, "Undo: The player asks, to spend", "Shift+Tab");
    await keyboard.press("Enter");
    expect(await page.evaluate(() => window.fakeBench.rig.asks.spendAtMost)).toBeNull();
  });

  test.each([
    ["empty", () => "name: New\npedals: []\n"],
    ["with faults", () => fullYaml.replace("model: plate", "model: reverb").replace("mix: 0.3", "mix: 7")],
    ["full", () => fullYaml],
  ])("axe finds nothing in the form %s, folded open", async (_state, text) => {
    await page.evaluate((yaml) => window.fakeBench.desk.open("rig.yaml", yaml), text());
    await openAll();
    expect(await axeFindings(page, "#rig")).toEqual([]);
  });

  test("a file that is opened while text is typed loses neither", async () => {
    await page.getByText("The rig file as text").click();
    const area = page.locator(".rig-text textarea");
    const typed = begun.replace("Tank", "Boiler");
    await area.fill(typed);
    const buffer = Buffer.from(fullYaml);
    await page
      .getByLabel("Open a rig file")
      .setInputFiles({ name: "full.yaml", mimeType: "text/yaml", buffer });
    await expect.poll(() => area.inputValue()).toBe(fullYaml);
    await area.blur();
    expect(await page.evaluate(() => window.fakeBench.desk.text)).toBe(fullYaml);
    await page.evaluate(() => window.fakeBench.desk.undo());
    expect(await area.inputValue()).toBe(typed);
  });

  test("a fault leads to its field, or to its line of the text", async () => {
    await page.getByLabel("Swing, name").fill("Tank");
    await page.getByLabel("Swing, name").blur();
    const list = page.locator(".rig-faults");
    expect(await list.locator(".fault").textContent()).toBe(
      "One thing is wrong with this rig; until it is mended, you hear the rig as it was before.",
    );
    await list.getByRole("button").click();
    expect(await focused()).toBe("Tank, name");
    await page.evaluate((text) => window.fakeBench.desk.open("rig.yaml", `${text}colour: red\n`), begun);
    await list.getByRole("button").click();
    const at = await page.locator(".rig-text textarea").evaluate((node) => {
      if (!(node instanceof HTMLTextAreaElement)) return null;
      return node.value.slice(node.selectionStart, node.selectionEnd);
    });
    expect(at).toBe("colour: red");
  });
});

/** All that the form has a field for. */
const fullYaml = `name: Full
playsInto: two-amps
take: { file: take.wav, into: { ohms: 1000000, picofarads: 300 } }
pedals:
  - { name: Swing, model: vibrato, jacks: mono-to-stereo, supply: { volts: 9, milliamps: 20 } }
  - name: Tank
    model: plate
    jacks: mono
    sizeMm: { width: 100, depth: 120 }
    alternatives:
      - { name: Other, model: hall, jacks: stereo, price: 200 }
onHand: [{ box: splitter, outputs: 2 }, { box: summing-box }, { box: mixer, pairs: 2 }]
boxes:
  splitter: { price: 65, supply: { volts: 9, milliamps: 15 }, sizeMm: { width: 40, depth: 95 } }
  mixer: [{ pairs: 2, price: 100 }, { pairs: 4, price: 150 }]
currency: SEK
mixer: { returnDb: -4 }
reference: { dbfs: -18, dbu: -10 }
instrument:
  outputOhms: 9000
  volume: { ohms: 500000 }
  tone: { ohms: 500000, nanofarads: 22 }
cables: { patchMetres: 0.2 }
destination: { inputOhms: 10000 }
secondUnit: { Tank: { mix: 0.3 } }
places: { Tank: beside }
asks: { stereo: 0.5, order: [Tank], sameUnit: [Tank], spendAtMost: 300 }
`;

interface Point {
  readonly x: number;
  readonly y: number;
}

async function centre(of: ReturnType<Page["locator"]>): Promise<Point> {
  await of.scrollIntoViewIfNeeded();
  const box = await of.boundingBox();
  if (!box) throw new Error("nothing to be seen");
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

/** A mouse, or a finger on the screen, which the browser is told of as its own. */
async function pointer(page: Page, by: "mouse" | "touch") {
  if (by === "mouse") {
    return {
      down: ({ x, y }: Point) => page.mouse.move(x, y).then(() => page.mouse.down()),
      move: ({ x, y }: Point) => page.mouse.move(x, y),
      up: (_: Point) => page.mouse.up(),
    };
  }
  const session = await page.context().newCDPSession(page);
  const send = (type: "touchStart" | "touchMove" | "touchEnd", touchPoints: readonly Point[]) =>
    session.send("Input.dispatchTouchEvent", { type, touchPoints: [...touchPoints] });
  return {
    down: (point: Point) => send("touchStart", [point]),
    move: (point: Point) => send("touchMove", [point]),
    up: (_: Point) => send("touchEnd", []),
  };
}
