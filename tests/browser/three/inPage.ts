/** What runs in the pages, whole: a function that is sent there knows nothing of this file but itself. */

/** Waits until nothing is being rendered and there are figures; gives them. */
export async function figures(): Promise<unknown> {
  for (;;) {
    const bench = window.splitsum;
    if (bench?.fault) throw new Error(bench.fault);
    if (bench?.report && bench.progress === null) return { takeName: bench.takeName, report: bench.report };
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

declare global {
  interface Window {
    heard?: {
      context: BaseAudioContext | null;
      /** Frames that went to the loudspeakers, and their largest value on the left. */
      frames: number;
      peak: number;
      /** For each fade: ms from the end of what asked for it to its beginning. Below 0 it is cut. */
      spareMs: number[];
    };
    /** What the page handed out as files, by name. */
    savedFiles?: Map<string, Blob>;
  }
}

/**
 * From here on the page's output is listened to as well, and its fades are watched. The node is deprecated, but every
 * browser has it and no policy of a page is against it.
 */
export function listen(): void {
  const heard = { context: null as BaseAudioContext | null, frames: 0, peak: 0, spareMs: [] as number[] };
  window.heard = heard;
  const { connect } = AudioNode.prototype;
  const taps = new WeakMap<BaseAudioContext, ScriptProcessorNode>();
  const tapOf = (context: BaseAudioContext) => {
    const known = taps.get(context);
    if (known) return known;
    const made = context.createScriptProcessor(4096, 2, 2);
    made.onaudioprocess = ({ inputBuffer }) => {
      heard.frames += inputBuffer.length;
      for (const x of inputBuffer.getChannelData(0)) heard.peak = Math.max(heard.peak, Math.abs(x));
    };
    taps.set(context, made);
    heard.context = context;
    Reflect.apply(connect, made, [context.destination]);
    return made;
  };
  AudioNode.prototype.connect = new Proxy(connect, {
    apply(target, node: AudioNode, to: unknown[]) {
      if (to[0] instanceof AudioDestinationNode) Reflect.apply(target, node, [tapOf(node.context)]);
      return Reflect.apply(target, node, to);
    },
  });
  const setValueAtTime = AudioParam.prototype.setValueAtTime;
  AudioParam.prototype.setValueAtTime = function (this: AudioParam, value, beginsAt) {
    const { context } = heard;
    if (context) {
      const asked = performance.now();
      const aheadMs = 1000 * (beginsAt - context.currentTime);
      // A browser may send a change on its way only when what asked for it has ended.
      queueMicrotask(() => heard.spareMs.push(aheadMs - (performance.now() - asked)));
    }
    return setValueAtTime.call(this, value, beginsAt);
  };
}

/** Waits until `seconds` more have come out of the page. */
export async function playOn(seconds: number): Promise<void> {
  const { heard } = window;
  if (!heard) throw new Error("nobody listens");
  const end = heard.frames + seconds * (heard.context?.sampleRate ?? 48_000);
  while (heard.frames < end) await new Promise((resolve) => setTimeout(resolve, 10));
}

/** Lets a file fall onto the page, as a hand does. */
export function drop({ name, base64 }: { name: string; base64: string }): void {
  const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  const dataTransfer = new DataTransfer();
  dataTransfer.items.add(new File([bytes], name));
  document.dispatchEvent(new DragEvent("drop", { bubbles: true, cancelable: true, dataTransfer }));
}

/** From here on what the page hands out as a file is kept and not handed out. */
export function keepFiles(): void {
  const byAddress = new Map<string, Blob>();
  const saved = new Map<string, Blob>();
  window.savedFiles = saved;
  const addressOf = URL.createObjectURL.bind(URL);
  URL.createObjectURL = (object) => {
    const address = addressOf(object);
    if (object instanceof Blob) byAddress.set(address, object);
    return address;
  };
  const click = HTMLAnchorElement.prototype.click;
  HTMLAnchorElement.prototype.click = function () {
    const file = byAddress.get(this.href);
    if (file && this.download) saved.set(this.download, file);
    else click.call(this);
  };
}

/** The text of a file that the page hands out, once it has. */
export async function savedText(ending: string): Promise<string> {
  for (;;) {
    const found = [...(window.savedFiles ?? [])].find(([name]) => name.endsWith(ending));
    if (found) return found[1].text();
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

/** Presses the button with this text, once there is one that can be pressed. */
export async function pressButton(name: string): Promise<void> {
  for (;;) {
    const found = [...document.querySelectorAll("button")].find(
      (button) => button.textContent?.trim() === name && !button.disabled,
    );
    if (found) return found.click();
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}
