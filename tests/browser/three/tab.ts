/** One open page, in whichever browser: what the tests of all three need of it. */
export interface Tab {
  /** Runs a function in the page, with what it is given as JSON, and gives what its promise comes to, as JSON. */
  run<Given, Result>(script: (given: Given) => Result | Promise<Result>, given: Given): Promise<Result>;
  /** A key as a hand presses it: a letter, a digit or a space. */
  press(key: string): Promise<void>;
}

/** A browser of this machine. */
export interface AnyBrowser {
  open(file: string): Promise<Tab>;
  close(): Promise<void>;
}

/** A kind of browser and how to start it; null where this machine has none. */
export interface BrowserKind {
  readonly name: string;
  readonly start: (() => Promise<AnyBrowser>) | null;
}
