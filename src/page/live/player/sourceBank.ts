/** Channels that one buffer source and one splitter may have. Source: W3C Web Audio API, at least 32. */
export const mostChannels = 32;
/** Fade at the start and the end of a source that begins or ends in the middle of the sound. */
export const edgeFadeSeconds = 0.01;

/** Sound that runs: stops with a fade, to make room for the next. */
export interface RunningSound {
  /** Fades out over `seconds` from `at` on. */
  stop(at: number, seconds: number): void;
}

/** All channels of the renders as outputs that never change, whatever source feeds them at the moment. */
export class SourceBank {
  readonly #context: BaseAudioContext;
  readonly #splitters: readonly ChannelSplitterNode[];

  constructor(context: BaseAudioContext, channels: number) {
    this.#context = context;
    this.#splitters = Array.from({ length: Math.ceil(channels / mostChannels) }, (_, n) =>
      context.createChannelSplitter(Math.min(mostChannels, channels - n * mostChannels)),
    );
  }

  connect(channel: number, node: AudioNode): void {
    this.#splitters[Math.floor(channel / mostChannels)].connect(node, channel % mostChannels);
  }

  /**
   * Starts all buffers at one frame. At the beginning of the sound there is no fade: the first attack is kept.
   * @param offsetFrame  where in the buffers to begin
   * @param fadeSeconds  fade-in; 0 for none
   * @param onEnded      called when a sound that does not loop has come to its end, or was stopped
   */
  start(
    buffers: readonly AudioBuffer[],
    options: { at: number; offsetFrame: number; loop: boolean; fadeSeconds: number; onEnded?: () => void },
  ): RunningSound {
    const { at, offsetFrame, loop, fadeSeconds, onEnded } = options;
    const started = buffers.map((buffer, n) => {
      const source = new AudioBufferSourceNode(this.#context, { buffer, loop });
      const fade = new GainNode(this.#context, {
        gain: fadeSeconds > 0 ? 0 : 1,
        channelCount: buffer.numberOfChannels,
        channelCountMode: "explicit",
        channelInterpretation: "discrete",
      });
      if (fadeSeconds > 0) {
        fade.gain.setValueAtTime(0, at);
        fade.gain.linearRampToValueAtTime(1, at + fadeSeconds);
      }
      source.connect(fade).connect(this.#splitters[n]);
      source.onended = () => {
        fade.disconnect();
        if (n === 0) onEnded?.();
      };
      source.start(at, offsetFrame / buffer.sampleRate);
      return { source, fade };
    });
    const fullAt = at + fadeSeconds;
    return {
      stop: (stopAt, seconds) => {
        const from = Math.max(stopAt, fullAt);
        for (const { source, fade } of started) {
          fade.gain.setValueAtTime(1, from);
          fade.gain.linearRampToValueAtTime(0, from + seconds);
          source.stop(from + seconds);
        }
      },
    };
  }
}
