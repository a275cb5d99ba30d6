import { loopSamples, seamSeconds } from "./loopSeam.js";
import type { PlayableSound } from "./playableSound.js";
import { crossfadeSeconds, PlayerGraph } from "./playerGraph.js";
import { edgeFadeSeconds, type RunningSound } from "./sourceBank.js";

/** A stretch that is played over and over, in frames; `to` is the frame behind the last. */
export interface LoopFrames {
  readonly from: number;
  readonly to: number;
}

/** How far ahead changes are set, so that the audio thread has them in time: what it has rendered already, and some more. */
const leastAheadSeconds = 0.02;

interface PlayRun {
  readonly sound: RunningSound;
  /** Time of the context at which `fromFrame` is heard. */
  readonly startedAt: number;
  readonly fromFrame: number;
  readonly loop: LoopFrames | null;
}

/** An audio context with a sound in it that runs, stops, jumps and is exchanged, never with a click. */
export class Playback {
  readonly context: AudioContext;
  readonly graph: PlayerGraph;
  readonly #onEnded: () => void;
  #sound: PlayableSound;
  #looped: {
    readonly loop: LoopFrames;
    readonly sound: PlayableSound;
    readonly buffers: readonly AudioBuffer[];
  } | null = null;
  #run: PlayRun | null = null;

  /** Must be made in a gesture, or nothing will sound. `onEnded`: the sound has come to its end by itself. */
  constructor(sound: PlayableSound, selected: string, onEnded: () => void) {
    this.#sound = sound;
    this.#onEnded = onEnded;
    this.context = new AudioContext({ sampleRate: sound.rateHz, latencyHint: "interactive" });
    this.graph = new PlayerGraph(this.context, sound.channels, sound.choices, selected);
  }

  get running(): boolean {
    return this.#run !== null;
  }

  /** The next time at which a change is safe, on a whole frame. */
  soon(): number {
    const { currentTime, baseLatency, sampleRate } = this.context;
    const ahead = Math.max(leastAheadSeconds, baseLatency + 0.01);
    // Less a hair, so that a sum that is a whole frame but for rounding stays that frame.
    return Math.ceil((currentTime + ahead) * sampleRate - 1e-6) / sampleRate;
  }

  /** The frame that is played at a time of the context. */
  frameAt(time: number): number {
    if (!this.#run) return 0;
    const { startedAt, fromFrame, loop } = this.#run;
    const gone = Math.max(0, Math.round((time - startedAt) * this.context.sampleRate));
    if (!loop) return Math.min(fromFrame + gone, this.#sound.frames);
    return loop.from + ((fromFrame - loop.from + gone) % (loop.to - loop.from));
  }

  /** The frame that is heard now. */
  get heardFrame(): number {
    return this.frameAt(this.context.currentTime - (this.context.outputLatency || 0));
  }

  /** Plays from a frame on; what runs is faded over. Outside of the loop: from the loop's beginning. */
  start(frame: number, loop: LoopFrames | null, at = this.soon()): void {
    const fromFrame = loop && (frame < loop.from || frame >= loop.to) ? loop.from : frame;
    const previous = this.#run;
    previous?.sound.stop(at, crossfadeSeconds);
    const buffers = loop ? this.#loopBuffers(loop) : this.#sound.buffers;
    const sound = this.graph.bank.start(buffers, {
      at,
      offsetFrame: fromFrame - (loop?.from ?? 0),
      loop: loop !== null,
      fadeSeconds: previous ? crossfadeSeconds : fromFrame === 0 ? 0 : edgeFadeSeconds,
      onEnded: () => {
        if (this.#run !== run) return;
        this.#run = null;
        this.#onEnded();
      },
    });
    const run: PlayRun = { sound, startedAt: at, fromFrame, loop };
    this.#run = run;
  }

  /** @returns the frame at which it stopped */
  stop(): number {
    const at = this.soon();
    const frame = this.frameAt(at);
    this.#run?.sound.stop(at, edgeFadeSeconds);
    this.#run = null;
    return frame;
  }

  /** Other sound of the same make, at the same place, from `loop` on; a running one is crossfaded. */
  exchange(sound: PlayableSound, loop: LoopFrames | null): void {
    const at = this.soon();
    const frame = this.frameAt(at);
    this.#sound = sound;
    for (const { id, voices } of sound.choices) this.graph.setVoices(id, voices, at);
    if (this.#run) this.start(Math.min(frame, sound.frames - 1), loop, at);
  }

  /** Fades out and gives the device back. */
  close(): void {
    this.stop();
    setTimeout(() => void this.context.close(), 1000 * (leastAheadSeconds + edgeFadeSeconds) + 100);
  }

  #loopBuffers(loop: LoopFrames): readonly AudioBuffer[] {
    const sound = this.#sound;
    const known = this.#looped;
    if (known && known.sound === sound && known.loop.from === loop.from && known.loop.to === loop.to)
      return known.buffers;
    const buffers = sound.buffers.map((whole) => loopBuffer(whole, loop));
    this.#looped = { loop, sound, buffers };
    return buffers;
  }
}

function loopBuffer(whole: AudioBuffer, { from, to }: LoopFrames): AudioBuffer {
  const { numberOfChannels, sampleRate } = whole;
  const buffer = new AudioBuffer({ length: to - from, numberOfChannels, sampleRate });
  const seamFrames = Math.round(seamSeconds * sampleRate);
  for (let n = 0; n < numberOfChannels; n++) {
    buffer.copyToChannel(loopSamples(whole.getChannelData(n), from, to, seamFrames), n);
  }
  return buffer;
}
