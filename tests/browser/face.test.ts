import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { routingIds } from "../../src/rig/routings/routing.js";
import { fixed, percent } from "../../src/text/numbers.js";
import { describeInChromium } from "./chromium.js";
import { liveRegionHasSpoken, markupNames, newCalls, useFacePage } from "./facePage.js";

/** Widths of WCAG 2.2, 1.4.10 (320 px), of a small telephone, and of desks. */
const widths = [320, 360, 900, 1600];

describeInChromium("the face", (open) => {
  const face = useFacePage();
  const calls = (page: Page) => page.evaluate(newCalls);
  const minus = (text: string) => (text === "-" ? "\u2013" : text.replace(/^-/, "\u2212"));

  test("names with markup come out as text, and nothing is complained of", async () => {
    const { page, complaints } = await open(face().file);
    const alerts: string[] = [];
    page.on("dialog", (dialog) => {
      alerts.push(dialog.message());
      void dialog.dismiss();
    });
    for (const name of markupNames) {
      await expect.poll(() => page.locator("legend", { hasText: name }).count()).toBeGreaterThan(0);
    }
    expect(await page.locator("h1").textContent()).toBe("Rig <i>of</i> tests");
    expect(await page.locator("img, b:has-text('bold'), [onclick], [onerror]").count()).toBe(0);
    expect(
      await page.locator(".sheet:not(.off-screen) svg text", { hasText: "<img" }).count(),
    ).toBeGreaterThan(0);
    expect(alerts).toEqual([]);
    expect(complaints).toEqual([]);
  });

  test.each(widths)(
    "nothing runs out at %i px, and nothing jumps while a knob is turned and a render runs",
    async (width) => {
      const { page } = await open(face().file, { viewport: { width, height: 900 } });
      await page.locator("figure svg.chart").last().waitFor();
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      const places = () =>
        page.evaluate(() =>
          [...document.querySelectorAll(".hear > *, .card, #see")]
            .filter((node) => node.checkVisibility())
            .map((node) => {
              const { left, top } = node.getBoundingClientRect();
              // What stays in sight moves with the page, and with nothing else.
              const around = node.closest(".hear")?.getBoundingClientRect();
              return [left, top - (around?.top ?? -scrollY)];
            }),
        );
      const before = await places();
      await page.getByRole("checkbox", { name: "Mixer, return as the unit's own mix" }).focus();
      await page.keyboard.press("Space");
      await page.evaluate(() => {
        window.fakeBench.progress = { done: 0.1, what: "rendering 8 routings" };
        window.fakeBench.tell("progress");
      });
      expect((await calls(page)).length).toBe(1);
      expect(await places()).toEqual(before);
    },
  );

  test("text at 200 % does not run out of the page or hide", async () => {
    const { page } = await open(face().file, { viewport: { width: 640, height: 900 } });
    await page.evaluate(() => {
      document.documentElement.style.fontSize = "200%";
    });
    await page.locator("figure svg.chart").last().waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(640);
    const cut = await page.evaluate(() =>
      [...document.querySelectorAll("button, label, legend, h2, h3, p, .choice .name")]
        .filter(
          (node) => node instanceof HTMLElement && !node.matches(".visually-hidden, .visually-hidden *"),
        )
        .filter(
          (node) => node.scrollWidth > node.clientWidth + 1 && getComputedStyle(node).display !== "inline",
        )
        .map((node) => node.textContent),
    );
    expect(cut).toEqual([]);
  });

  test("keys choose, play, seek and loop", async () => {
    const { page } = await open(face().file);
    await page.keyboard.press("2");
    await page.keyboard.press("0");
    await page.keyboard.press("Space");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("[");
    await page.keyboard.press("Shift+ArrowRight");
    await page.keyboard.press("]");
    await page.keyboard.press("Space");
    const { length } = await page.evaluate(() => ({ length: window.fakeBench.player.lengthSeconds }));
    const end = Math.min(length, 12).toFixed(2);
    expect(await calls(page)).toEqual([
      "choose unit-first",
      "choose dry",
      "play",
      "seek 2.00",
      expect.stringMatching(/^setLoop \{"on":true,"from":/),
      `seek ${end}`,
      expect.stringMatching(/^setLoop \{"on":true,"to":/),
      "pause",
    ]);
    expect(await page.locator("input[name=routing]:checked").getAttribute("value")).toBe("dry");
  });

  test("keys rest while typing, with Ctrl or Alt, and when turned off", async () => {
    const { page } = await open(face().file);
    await page.locator(".card input[type=number]").first().focus();
    await page.keyboard.press("2");
    await page.locator(".card select").first().focus();
    await page.keyboard.press("3");
    await page.locator("h1").click();
    await page.keyboard.press("Control+2");
    await page.keyboard.press("Alt+2");
    expect((await calls(page)).filter((call) => /choose|play|seek/.test(call))).toEqual([]);
    await page.keyboard.press("?");
    await page.getByRole("dialog").getByLabel("These keys are on").uncheck();
    await page.getByRole("button", { name: "Close" }).click();
    await page.keyboard.press("2");
    expect((await calls(page)).filter((call) => /choose/.test(call))).toEqual([]);
  });

  test("Space on a button presses that button alone", async () => {
    const { page } = await open(face().file);
    await page.getByRole("button", { name: "Whole take" }).focus();
    await page.keyboard.press("Space");
    expect(await calls(page)).toEqual([expect.stringMatching(/^setLoop/)]);
  });

  test("a change of routing is told once, politely", async () => {
    const { page } = await open(face().file);
    await page.evaluate(() => {
      const said: string[] = [];
      Object.assign(window, { said });
      const status = document.querySelector(".visually-hidden[role=status]");
      new MutationObserver(() => status?.textContent && said.push(status.textContent)).observe(
        status ?? document,
        {
          childList: true,
          characterData: true,
          subtree: true,
        },
      );
    });
    await page.keyboard.press("3");
    await page.evaluate(liveRegionHasSpoken);
    await page.evaluate(() => window.fakeBench.tell("player"));
    await page.evaluate(liveRegionHasSpoken);
    expect(await page.evaluate("said")).toEqual(["Paused: Two delays, one a side"]);
  });

  test("sliders say their values in units", async () => {
    const { page } = await open(face().file);
    const depth = page.getByRole("slider", { name: /, depth$/ });
    await depth.first().focus();
    await page.keyboard.press("ArrowRight");
    expect(await depth.first().getAttribute("aria-valuetext")).toMatch(/^[\d.]+ ms$/);
    expect(await page.getByRole("slider", { name: "Position" }).getAttribute("aria-valuetext")).toMatch(
      /^0\.0 seconds of [\d.]+ seconds$/,
    );
    expect(await page.getByRole("slider", { name: "Volume" }).getAttribute("aria-valuetext")).toMatch(
      /decibels/,
    );
    expect(await calls(page)).toEqual([expect.stringMatching(/setSetting .* depthMs [\d.]+$/)]);
  });

  test("a swipe that the browser takes for a scroll leaves the knob where it was", async () => {
    const { page } = await open(face().file);
    const slider = page.getByRole("slider", { name: /, mix$/ }).first();
    const turned = await slider.evaluate((node) => {
      const input = node as HTMLInputElement;
      const before = input.value;
      const told = (type: string) => input.dispatchEvent(new PointerEvent(type, { pointerType: "touch" }));
      told("pointerdown");
      input.value = String(Number(before) / 2);
      input.dispatchEvent(new Event("input", { bubbles: true }));
      const during = input.value;
      told("pointercancel");
      return { before, during, after: input.value, action: getComputedStyle(input).touchAction };
    });
    expect(turned.during).not.toBe(turned.before);
    expect(turned).toMatchObject({ after: turned.before, action: "pan-y" });
  });

  test("both ends of every slider are the bounds of the model's table", async () => {
    const { page } = await open(face().file);
    const lfo = page.getByRole("slider", { name: /, LFO$/ }).first();
    const { lfoHz } = (await import("../../src/rig/pedals/vibrato.js")).vibrato.settings;
    await lfo.focus();
    await page.keyboard.press("Home");
    await page.keyboard.press("End");
    const told = (await calls(page)).map((call) => Number(call.split(" ").at(-1)));
    expect(told).toEqual([lfoHz.min, lfoHz.max]);
  });

  test("a number out of range is refused with the range, and nothing is set", async () => {
    const { page } = await open(face().file);
    const mix = page.getByRole("spinbutton", { name: /, mix$/ }).first();
    await mix.fill("1.4");
    await mix.press("Enter");
    expect(await page.getByRole("alert").filter({ hasText: "The mix goes from 0 to 1." }).count()).toBe(1);
    expect(await calls(page)).toEqual([]);
    await mix.fill("0.25");
    await mix.press("Enter");
    expect(await calls(page)).toEqual([expect.stringMatching(/ mix 0\.25$/)]);
  });

  test("mixer, polarity and leak of the mono unit reach the bench; reset comes back", async () => {
    const { page } = await open(face().file);
    for (const fold of await page.locator(".card summary").all()) await fold.click();
    await page.getByRole("checkbox", { name: "Mixer, return as the unit's own mix" }).uncheck();
    await page.getByRole("spinbutton", { name: "Mixer, return pan" }).fill("0.5");
    await page.keyboard.press("Enter");
    await page.getByRole("checkbox", { name: /, inverts polarity$/ }).check();
    await page.getByRole("checkbox", { name: /, can go fully wet$/ }).uncheck();
    await page.getByRole("spinbutton", { name: /, dry leak, dB$/ }).fill("-20");
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "Back to the rig file" }).click();
    expect(await calls(page)).toEqual([
      expect.stringMatching(/^setMixer \{"returnDb":-?[\d.]+\}$/),
      'setMixer {"returnPan":0.5}',
      `setUnit ${markupNames[2]} {"invertsPolarity":true}`,
      `setUnit ${markupNames[2]} {"canGoFullyWet":false}`,
      `setUnit ${markupNames[2]} {"dryLeakDb":-20}`,
      "reset",
    ]);
    expect(await page.getByRole("checkbox", { name: /, inverts polarity$/ }).isChecked()).toBe(false);
  });

  test("figures are those of the report, to the printed digit", async () => {
    const { page } = await open(face().file);
    const { report } = face().facts;
    const cells = (table: string) =>
      page
        .locator(`${table} tbody tr`)
        .evaluateAll((all) =>
          all.map((row) => [...row.querySelectorAll("td")].map((cell) => cell.textContent)),
        );
    const main = await cells(".figures > :first-child");
    expect(main.map((row) => row.slice(1, 3))).toEqual(
      report.routings.map(({ build, measures }) => [
        String(build?.extraBoxes),
        minus(percent(measures?.widthKept ?? null)),
      ]),
    );
    const rest = await cells(".figures > .more");
    expect(rest.map((row) => row.slice(0, 2))).toEqual(
      report.routings.map(({ measures }) => [
        minus(fixed(measures?.correlation ?? null, 2)),
        minus(percent(measures?.sideShare ?? null)),
      ]),
    );
    expect(main.length).toBe(routingIds.length);
    expect(rest.length).toBe(routingIds.length);
  });

  test("what each choice costs stands where one chooses, and where the rig does not say, that it is not known", async () => {
    const { page } = await open(face().file);
    const told = async (part: string) =>
      (await page.locator(part).allTextContents()).map((text) => text.replace(" to buy: ", ""));
    // The rig states no price of a splitter, a mixer or a second delay.
    const expected = [
      "nothing",
      "nothing",
      ...Array(3).fill("not known"),
      "nothing",
      ...Array(2).fill("not known"),
    ];
    expect(await told(".choice .price")).toEqual([...expected, "\u2013"]);
    expect(await told(".figures > :first-child tbody td:nth-of-type(1)")).toEqual(expected);
  });

  test("a table that goes on to the right says so and keeps its names in sight; on a desk all is seen", async () => {
    const { page } = await open(face().file, { viewport: { width: 360, height: 740 } });
    const scroller = page.locator(".figures > :first-child .scroller");
    expect(await scroller.locator(".sideways").isVisible()).toBe(true);
    await scroller.evaluate((node) => node.scrollTo({ left: node.scrollWidth, behavior: "instant" }));
    const [name, whole] = await scroller.evaluate((node) => [
      node.querySelector("tbody th")?.getBoundingClientRect().left ?? -1,
      node.getBoundingClientRect().left,
    ]);
    expect(name).toBe(whole);
    await page.setViewportSize({ width: 1366, height: 768 });
    await expect.poll(() => scroller.locator(".sideways").isVisible()).toBe(false);
    expect(await scroller.evaluate((node) => node.scrollWidth - node.clientWidth)).toBe(0);
  });

  test("what no player knows has a plain word beside it in every table heading", async () => {
    const { page } = await open(face().file);
    for (const summary of await page.locator("#see summary").all()) await summary.click();
    const headings = await page
      .locator("#see thead th")
      .evaluateAll((all) =>
        all.map((th) => [th.firstChild?.textContent, th.querySelector(".plain")?.textContent?.trim() ?? ""]),
      );
    const trade =
      /^(correlation|side|side share|side to mid|width kept|balance.*|loss in mono|true peak|match|centroid|IACC|EDT|T20|T30|median|5th percentile)$/;
    const met = headings.filter(([heading]) => trade.test(heading ?? ""));
    expect(new Set(met.map(([heading]) => heading)).size).toBe(17);
    expect(met.filter(([, plain]) => plain === "")).toEqual([]);
  });

  test("the answer comes ahead of every knob, and of the knobs the main ones; the rest is under More", async () => {
    const { page } = await open(face().file, { viewport: { width: 360, height: 740 } });
    const tops = await page.evaluate(() =>
      ["#answer", "#hear", "#turn", ".cards"].map(
        (part) => document.querySelector(part)?.getBoundingClientRect().top ?? 0,
      ),
    );
    expect(tops).toEqual([...tops].sort((a, b) => a - b));
    const card = page.locator(".card").first();
    const names = () =>
      card
        .locator(".setting label:visible")
        .evaluateAll((all) => all.map((one) => one.firstChild?.textContent));
    expect(await names()).toEqual(["LFO", "depth", "mix"]);
    await card.getByText("More").click();
    expect(await names()).toEqual(["LFO", "depth", "mix", "second output", "spread", "phase"]);
  });

  test("every plot has axis titles with units, words, and its table one click away", async () => {
    const { page } = await open(face().file);
    const { report } = face().facts;
    const figures = page.locator("figure");
    expect(await figures.count()).toBe(7);
    for (const figure of await figures.all()) {
      expect((await figure.locator(".summary").textContent())?.length).toBeGreaterThan(10);
      const chart = figure.locator("svg.chart");
      if ((await chart.count()) > 0) {
        const text = (await chart.locator("text").allTextContents()).join("|");
        expect(text).toMatch(/\((s|Hz|dB)\)/);
        expect(text).toMatch(/\((dB|%|% of the reference|\u22121 to 1)\)/);
        expect(await chart.getAttribute("aria-label")).toMatch(/\w/);
      }
      await figure.locator("summary").click();
      await expect
        .poll(() => figure.locator("tbody tr").count())
        .toBeGreaterThanOrEqual(report.routings.filter(({ possible }) => possible).length);
      expect(await figure.locator("table").textContent()).toContain("(reference)");
    }
  });

  test("a routing left out of the legend is left out of the plots", async () => {
    const { page } = await open(face().file);
    const lines = page.locator("figure", { hasText: "Correlation over time" }).locator(".series-line path");
    const before = await lines.count();
    await page.locator(".legend").getByLabel("Summed into the delay").uncheck();
    expect(await lines.count()).toBe(before - 1);
    expect(await page.locator(".field").count()).toBe(7);
  });

  test("what is heard is drawn strong and the others grey, each labelled where its line ends", async () => {
    const { page } = await open(face().file, { viewport: { width: 1600, height: 900 } });
    const figure = page.locator("figure", { hasText: "Correlation over time" });
    const looks = () =>
      figure.locator(".series-line").evaluateAll((lines) =>
        lines.map((line) => {
          const { stroke, strokeWidth } = getComputedStyle(line);
          return `${stroke} ${strokeWidth}`;
        }),
      );
    await page.keyboard.press("4");
    const heard = await looks();
    expect(heard.length).toBe(8);
    expect(new Set(heard.slice(0, 7)).size).toBe(1);
    expect(heard[7]).not.toBe(heard[0]);
    expect(await figure.locator(".line-end").count()).toBe(8);
    expect(await figure.locator(".line-end[font-weight=bold]").allTextContents()).toEqual([
      "Delay beside, from a split",
    ]);
    await page.keyboard.press("0");
    expect(new Set(await looks()).size).toBeGreaterThan(5);
    expect(await figure.locator(".line-end[font-weight=bold]").count()).toBe(0);
  });

  test("at 360 px no label of a plot is cut, and lines end in the numbers of the legend", async () => {
    const { page } = await open(face().file, { viewport: { width: 360, height: 740 } });
    await page.locator("figure svg.chart").last().waitFor();
    const cut = await page.evaluate(() =>
      [...document.querySelectorAll("figure .plot")].flatMap((plot) => {
        const { left, right, top, bottom } = plot.getBoundingClientRect();
        return [...plot.querySelectorAll("text")]
          .map((text) => ({ text: text.textContent ?? "", box: text.getBoundingClientRect() }))
          .filter(
            ({ text, box }) =>
              text.includes("\u2026") ||
              box.left < left - 0.5 ||
              box.right > right + 0.5 ||
              box.top < top - 0.5 ||
              box.bottom > bottom + 0.5,
          )
          .map(({ text }) => text);
      }),
    );
    expect(cut).toEqual([]);
    const shown = await page
      .locator("figure", { hasText: "The trade-off" })
      .locator("svg.chart")
      .textContent();
    expect(shown?.replace(/\s/g, "")).toContain("Delaybeside,fromasplit,2boxesmore");
    const numbers = await page.locator(".legend .number").allTextContents();
    const ends = page.locator("figure", { hasText: "Correlation over time" }).locator(".line-end");
    expect((await ends.allTextContents()).sort()).toEqual(numbers);
  });

  test("routings differ in dash and mark as well as in colour", async () => {
    const { routingMark } = await import("../../src/page/widgets/routingMark.js");
    const all = [...routingIds, "dry", "mine", "yours"];
    const looks = all.map((id) => routingMark(id, all));
    expect(new Set(looks.map(({ colour, dash, symbol }) => `${colour} ${dash} ${symbol}`)).size).toBe(
      all.length,
    );
    const withoutColour = looks.slice(0, routingIds.length).map(({ dash, symbol }) => `${dash} ${symbol}`);
    expect(new Set(withoutColour).size).toBeGreaterThanOrEqual(routingIds.length - 1);
  });

  test("the strip seeks by a press and draws a loop by a drag", async () => {
    const { page } = await open(face().file);
    const box = await page.locator(".strip").first().boundingBox();
    if (!box) throw new Error("no strip");
    const at = (share: number) => [box.x + share * box.width, box.y + box.height / 2] as const;
    await page.mouse.move(...at(0.25));
    await page.mouse.down();
    await page.mouse.move(...at(0.5), { steps: 4 });
    await page.mouse.up();
    const { loop, length } = await page.evaluate(() => ({
      loop: window.fakeBench.player.loop,
      length: window.fakeBench.player.lengthSeconds,
    }));
    expect(loop.on).toBe(true);
    expect(loop.from / length).toBeCloseTo(0.25, 1);
    expect(loop.to / length).toBeCloseTo(0.5, 1);
    await page.mouse.move(...at(0.5));
    await page.mouse.down();
    await page.mouse.move(...at(0.9), { steps: 4 });
    await page.mouse.up();
    const to = await page.evaluate(() => window.fakeBench.player.loop.to);
    expect(to / length).toBeCloseTo(0.9, 1);
  });

  test("a take can be dropped anywhere; what cannot be used is said in words", async () => {
    const { page } = await open(face().file);
    const drop = (name: string) =>
      page.evaluate((fileName) => {
        const data = new DataTransfer();
        data.items.add(new File(["x"], fileName));
        document
          .querySelector("h1")
          ?.dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true }));
      }, name);
    await drop("verse.wav");
    await expect.poll(() => page.locator(".take .now").textContent()).toContain("verse.wav");
    await drop("notes.txt");
    await expect
      .poll(() => page.locator(".take > .fault").textContent())
      .toContain("notes.txt: is not a recording");
    expect(await calls(page)).toEqual(["loadTake verse.wav", "loadTake notes.txt"]);
  });

  test("rig file and WAV are handed over under safe names", async () => {
    const { page } = await open(face().file);
    const rig = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save as rig file" }).click();
    const saved = await rig;
    expect(saved.suggestedFilename()).toBe("rig-i-of-i-tests.yaml");
    expect(readFileSync(await saved.path(), "utf8")).toContain("name: Rig <i>of</i> tests");
    await page.keyboard.press("2");
    const wav = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save this routing as WAV" }).click();
    expect((await wav).suggestedFilename()).toBe("rig-i-of-i-tests-delay-first.wav");
    expect(await calls(page)).toContain("routingWav unit-first");
  });

  test("every wiring of a rig can be kept at once, under the rig's name, to stand beside another rig", async () => {
    const { page } = await open(face().file);
    await page.locator(".keep summary").click();
    await page.getByRole("button", { name: "Keep every wiring of this rig" }).click();
    const kept = (await calls(page)).filter((call) => call.startsWith("keep "));
    expect(kept).toHaveLength(8);
    expect(kept).toContain("keep series-mono Rig <i>of</i> tests: All in mono");
  });

  test("progress is shown while something is rendered, and gone after", async () => {
    const { page } = await open(face().file);
    expect(await page.locator(".progress").isVisible()).toBe(false);
    await page.evaluate(() => {
      window.fakeBench.progress = { done: 0.4, what: "rendering 8 routings" };
      window.fakeBench.tell("progress");
    });
    expect(await page.locator(".progress").textContent()).toContain("40\u00a0%, rendering 8 routings");
    expect(await page.getByRole("button", { name: "Start the trial" }).isDisabled()).toBe(true);
    await page.evaluate(() => {
      window.fakeBench.progress = null;
      window.fakeBench.tell("progress");
    });
    expect(await page.locator(".progress").isVisible()).toBe(false);
  });

  test("the build sheet follows the routing that is heard", async () => {
    const { page } = await open(face().file);
    await page.keyboard.press("4");
    expect(await page.locator(".sheet:visible h3").textContent()).toContain("Delay beside, from a split");
    const cables = face().facts.report.routings.find(({ id }) => id === "parallel")?.build?.cables.length;
    expect(await page.locator(".sheet:visible .patch tbody tr").count()).toBe(cables);
    expect(await page.locator(".sheet:visible svg.wiring path.cable").count()).toBe(cables);
  });
});
