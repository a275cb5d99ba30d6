import { type ChildProcess, spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { createServer } from "node:net";
import { Builder, Capabilities, type WebDriver } from "selenium-webdriver";
import { stepHangMs } from "../../limits.js";
import type { AnyBrowser, BrowserKind } from "./tab.js";

/** WebKitGTK's small browser and its driver, as Debian installs them, and a screen that is nowhere. */
const driverPath = "/usr/bin/WebKitWebDriver";
const screenPath = "/usr/bin/Xvfb";
const browserPath = ["x86_64-linux-gnu", "aarch64-linux-gnu"]
  .map((machine) => `/usr/lib/${machine}/webkit2gtk-4.1/MiniBrowser`)
  .find((path) => existsSync(path));
const isHere = browserPath !== undefined && existsSync(driverPath) && existsSync(screenPath);

async function start(): Promise<AnyBrowser> {
  const { screen, name } = await startScreen();
  const port = await freePort();
  const server = spawn(driverPath, [`--port=${port}`], {
    stdio: "ignore",
    env: {
      ...process.env,
      DISPLAY: name,
      // In a container its own sandbox has no room; the pages are our own.
      WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: "1",
      LIBGL_ALWAYS_SOFTWARE: "1",
    },
  });
  const stop = () => {
    server.kill();
    screen.kill();
  };
  try {
    const driver = await connected(port);
    await driver.manage().setTimeouts({ script: stepHangMs, pageLoad: stepHangMs });
    return {
      async open(file) {
        await driver.get(`file://${file}`);
        return {
          run: async (script, given) =>
            JSON.parse(await driver.executeAsyncScript(runAndReport(script), given)),
          press: (key) => driver.actions().sendKeys(key).perform(),
        };
      },
      async close() {
        await driver.quit().finally(stop);
      },
    };
  } catch (error) {
    stop();
    throw error;
  }
}

/** The driver gives back what its last argument is called with; what went wrong in the page must be told here. */
const runAndReport = (script: unknown): string => `
  const [given, done] = arguments;
  Promise.resolve((${script})(given)).then(
    (result) => done(JSON.stringify(result ?? null)),
    (error) => done(JSON.stringify({ thrown: String(error) })),
  );`;

/** Xvfb picks a free number and writes it to its third stream. */
function startScreen(): Promise<{ readonly screen: ChildProcess; readonly name: string }> {
  const screen = spawn(screenPath, ["-displayfd", "3", "-screen", "0", "1400x900x24"], {
    stdio: ["ignore", "ignore", "ignore", "pipe"],
  });
  return new Promise((resolve, reject) => {
    screen.once("error", reject);
    screen.once("exit", () => reject(new Error("Xvfb ended before it had a screen")));
    screen.stdio[3]?.once("data", (number) => resolve({ screen, name: `:${String(number).trim()}` }));
  });
}

function freePort(): Promise<number> {
  const server = createServer();
  return new Promise((resolve) => {
    server.listen(0, "127.0.0.1", () => {
      const address = server.address();
      server.close(() => resolve(typeof address === "object" && address ? address.port : 0));
    });
  });
}

/** The driver needs a moment before it listens. */
async function connected(port: number): Promise<WebDriver> {
  const capabilities = new Capabilities({
    browserName: "MiniBrowser",
    "webkitgtk:browserOptions": { binary: browserPath, args: ["--automation"] },
  });
  const end = Date.now() + stepHangMs;
  for (;;) {
    try {
      return await new Builder()
        .usingServer(`http://127.0.0.1:${port}`)
        .withCapabilities(capabilities)
        .build();
    } catch (error) {
      if (Date.now() > end) throw error;
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }
}

/** WebKitGTK by WebDriver. */
export const webkit: BrowserKind = { name: "WebKit", start: isHere ? start : null };
