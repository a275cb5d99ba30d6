import { type InputRefusal, refusalWords } from "../../../words/inputWords.js";
import type { InputDevice, InputLevel, InputState, SoundInput } from "../../contract/soundInput.js";
import { InputLevels } from "./inputLevels.js";
import type { InputPiece, InputTap, TapOptions } from "./inputTap.js";
import { openNodeTap } from "./nodeTap.js";
import { refusalOf } from "./refusal.js";
import { openTrackTap, trackProcessor } from "./trackTap.js";

interface Opened {
  readonly tap: InputTap;
  readonly stream: MediaStream;
  readonly levels: InputLevels;
}

/** More channels than an interface has: a browser gives as many as there are. */
const mostChannels = 32;

/** The audio input of the page. */
export class LiveInput implements SoundInput {
  state: InputState = { kind: "closed" };
  devices: readonly InputDevice[] = [];
  readonly #tell: () => void;
  readonly #listeners = new Set<(piece: InputPiece) => void>();
  #opened: Opened | null = null;
  #asked = 0;

  /** @param tell  called at every change of `state` and `devices` */
  constructor(tell: () => void) {
    this.#tell = tell;
  }

  get levels(): readonly InputLevel[] {
    return this.#opened?.levels.now ?? [];
  }

  /** Every piece that comes in from now on. Returns a function that stops it. */
  hear(listener: (piece: InputPiece) => void): () => void {
    this.#listeners.add(listener);
    return () => void this.#listeners.delete(listener);
  }

  async open(id?: string): Promise<void> {
    const asked = ++this.#asked;
    this.#release();
    if (!navigator.mediaDevices?.getUserMedia) return this.#refuse("no-way");
    this.#become({ kind: "asking" });
    try {
      const stream = await navigator.mediaDevices.getUserMedia({ audio: asItIs(id) });
      if (asked !== this.#asked) return stopTracks(stream);
      await this.#tapInto(stream, asked);
    } catch (error) {
      if (asked !== this.#asked) return;
      const refusal = refusalOf(error);
      if (refusal === null) console.error(error);
      this.#refuse(refusal ?? "busy");
    }
  }

  close(): void {
    this.#asked++;
    this.#release();
    this.#become({ kind: "closed" });
  }

  clearMarks(): void {
    this.#opened?.levels.clearMarks();
  }

  async #tapInto(stream: MediaStream, asked: number): Promise<void> {
    const [track] = stream.getAudioTracks();
    let levels: InputLevels | null = null;
    const onPiece = (piece: InputPiece) => {
      if (asked !== this.#asked) return;
      levels?.add(piece.channels);
      for (const listener of this.#listeners) listener(piece);
    };
    const onEnd = () => {
      if (asked !== this.#asked) return;
      this.#release();
      this.#refuse("gone");
    };
    try {
      const tap = await openTap(stream, track, { onPiece, onEnd });
      if (asked !== this.#asked) {
        tap.close();
        return stopTracks(stream);
      }
      levels = new InputLevels(tap.channels, tap.rateHz);
      this.#opened = { tap, stream, levels };
      this.devices = await namedDevices();
      const device = deviceOf(track, this.devices);
      if (asked === this.#asked)
        this.#become({ kind: "open", device, rateHz: tap.rateHz, channels: tap.channels });
    } catch (error) {
      stopTracks(stream);
      throw error;
    }
  }

  #refuse(refusal: InputRefusal): void {
    this.#become({ kind: "refused", words: refusalWords(refusal) });
  }

  #become(state: InputState): void {
    this.state = state;
    this.#tell();
  }

  #release(): void {
    this.#opened?.tap.close();
    if (this.#opened) stopTracks(this.#opened.stream);
    this.#opened = null;
  }
}

/** All that a browser does to a voice is off. Source: W3C Media Capture and Streams, constrainable properties. */
const asItIs = (id: string | undefined): MediaTrackConstraints => ({
  echoCancellation: false,
  noiseSuppression: false,
  autoGainControl: false,
  channelCount: { ideal: mostChannels },
  ...(id === undefined ? {} : { deviceId: { exact: id } }),
});

function openTap(stream: MediaStream, track: MediaStreamTrack, options: TapOptions): Promise<InputTap> {
  const processor = trackProcessor();
  return processor ? openTrackTap(processor, track, options) : openNodeTap(stream, track, options);
}

function stopTracks(stream: MediaStream): void {
  for (const track of stream.getTracks()) track.stop();
}

async function namedDevices(): Promise<readonly InputDevice[]> {
  const all = await navigator.mediaDevices.enumerateDevices();
  const inputs = all.filter(({ kind, deviceId }) => kind === "audioinput" && deviceId !== "");
  return inputs.map(({ deviceId, label }, n) => ({ id: deviceId, label: label || `Input ${n + 1}` }));
}

function deviceOf(track: MediaStreamTrack, devices: readonly InputDevice[]): InputDevice {
  const id = track.getSettings().deviceId ?? "";
  return devices.find((device) => device.id === id) ?? { id, label: track.label || "the usual input" };
}
