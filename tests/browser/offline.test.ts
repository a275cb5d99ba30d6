import { readFileSync, statSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { beforeAll, expect, test } from "vitest";
import { routingIds } from "../../src/rig/routings/routing.js";
import { sine } from "../signals.js";
import { describeInChromium } from "./chromium.js";
import { comparison, comparisonOf } from "./comparison.js";
import { rigYaml } from "./rig.js";

const take = {
  channels: [sine({ frequencyHz: 220, rateHz: 48_000, lengthSeconds: 1, peakDbfs: -12 })],
  rateHz: 48_000,
  bits: 24,
} as const;

describeInChromium("the page by itself, from disk, with the network off", (open) => {
  const small = comparison(rigYaml, take);
  beforeAll(() => small);

  test("without script, as in the preview of a mail, it gives answer and figures as text", async () => {
    const made = await small;
    const { page, complaints } = await open(made.page, { javaScriptEnabled: false });
    const plain = page.locator("noscript pre");
    expect(await plain.isVisible()).toBe(true);
    const text = (await plain.textContent())!.replace(/\s+/g, " ");
    expect(text).toContain(`(${made.report.answer.plan?.id})`);
    for (const { id, label } of made.report.routings) expect(text).toContain(`${id} ${label}.`);
    expect(text).toContain("What stands out");
    expect(complaints).toEqual([]);
  });

  test("asks for nothing, complains of nothing, and may not reach the network", async () => {
    const { page, complaints, requests } = await open((await small).page);
    await page.waitForFunction(() => window.splitsum?.progress === null);
    expect(complaints).toEqual([]);
    expect(requests).toEqual([]);
    const refused = await page.evaluate(async () => {
      const broken = new Set<string>();
      const five = new Promise<void>((resolve) => {
        document.addEventListener("securitypolicyviolation", ({ effectiveDirective }) => {
          if (broken.add(effectiveDirective).size === 5) resolve();
        });
      });
      await fetch("https://example.org/").catch(() => {});
      await fetch("data:text/plain,x").catch(() => {});
      new Image().src = "https://example.org/x.png";
      const script = document.createElement("script");
      script.textContent = "window.ran = true";
      const handler = document.createElement("div");
      handler.setAttribute("onclick", "window.ran = true");
      const frame = document.createElement("iframe");
      frame.src = "https://example.org/";
      document.body.append(script, handler, frame);
      handler.click();
      await five;
      return { broken: [...broken].sort(), ran: "ran" in window };
    });
    expect(refused).toEqual({
      broken: ["connect-src", "frame-src", "img-src", "script-src-attr", "script-src-elem"],
      ran: false,
    });
  });

  test("names with markup in them come out as text", async () => {
    const sly = `</script><img src=x onerror="window.hacked=1"><!--<b>'"&`;
    const yaml = rigYaml
      .replace("name: Weir and tank", `name: ${JSON.stringify(sly)}`)
      .replace("name: Weir,", `name: ${JSON.stringify(`${sly} Weir`)},`)
      .replace("name: Ledger,", `name: "<svg onload=window.hacked=1>",`);
    const { page, complaints } = await open((await comparison(yaml, take)).page);
    await page.waitForFunction(() => window.splitsum?.progress === null);
    expect(await page.title()).toContain(sly);
    const found = await page.evaluate(() => ({
      hacked: "hacked" in window,
      images: document.querySelectorAll("img, [onerror], [onload]").length,
      pedal: window.splitsum?.rig.pedals[0].name,
      text: document.querySelector("main")?.textContent,
    }));
    expect(found).toMatchObject({ hacked: false, images: 0, pedal: `${sly} Weir` });
    expect(found.text).toContain(sly);
    expect(complaints).toEqual([]);
  });

  test("a take that is too long stays at home; the figures travel, and another take can be brought", async () => {
    const made = await small;
    const whole = readFileSync(made.page, "utf8");
    const html = whole.replace(/"takes":\[\{"facts".*?\}\}\]/, '"takes":[]');
    expect(html.length).toBeLessThan(whole.length - 1000);
    const without = made.file("without.html");
    writeFileSync(without, html);
    const { page: opened, complaints } = await open(without);
    const fault = () => opened.evaluate(() => window.splitsum?.fault);
    expect(await fault()).toMatch(/too long to travel/);
    expect(await opened.evaluate(() => window.splitsum?.report?.routings.length)).toBe(routingIds.length);
    const letters = readFileSync(`${made.folder}/take.wav`).toString("latin1");
    await opened.evaluate((text) => {
      const bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0));
      return window.splitsum?.loadTake(new File([bytes], "own.wav"));
    }, letters);
    await opened.waitForFunction(() => window.splitsum?.progress === null);
    expect(await fault()).toBeNull();
    expect(complaints).toEqual([]);
  });

  /**
   * The demo: 19 s of take, two routings; six more add 0.11 MB. Times are said, not judged: they are this
   * machine's of the moment.
   */
  test("the demo's page is under 5 MB and plays soon", async () => {
    const rigFile = fileURLToPath(new URL("../../fixtures/rigs/ferry-road.yaml", import.meta.url));
    const made = await comparisonOf(rigFile, ["series-mono", "parallel"]);
    expect(statSync(made.page).size).toBeLessThan(4.8e6);
    const { page } = await open(made.page);
    const ms = await page.evaluate(
      () =>
        new Promise<number>((resolve) => {
          const look = () => {
            const isReady = (window.splitsum?.player.lengthSeconds ?? 0) > 0;
            if (isReady) resolve(performance.now());
            else setTimeout(look, 10);
          };
          look();
        }),
    );
    console.info(
      `page of ${(statSync(made.page).size / 1e6).toFixed(2)} MB, ready to play ${ms.toFixed(0)} ms after it was opened`,
    );
  });
});
