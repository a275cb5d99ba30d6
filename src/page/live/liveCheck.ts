import type { Rig } from "../../rig/model/rig.js";
import { chooseRoutings } from "../../rig/routings/chooseRoutings.js";
import { takePart } from "../../sound/audio/takeSource.js";
import { initialiseFft } from "../../sound/dsp/fft.js";
import { secondsToFrames } from "../../sound/dsp/units.js";
import { withCheckedReturns } from "../../work/crosscheck/checkedSound.js";
import { type CrosscheckedRouting, crosscheck } from "../../work/crosscheck/crosscheck.js";
import type { EngineCheck } from "../contract/onDemand.js";
import type { RenderState, RigTakeClips } from "./engine/renderState.js";
import { OnDemandWork } from "./onDemandWork.js";

/** As much of the take is played, as by the command. */
const playedSeconds = 5;

/** The engine against the browser's own OfflineAudioContext, when it is asked for. */
export class LiveCheck {
  readonly #fftBinary: Uint8Array;
  readonly #work: OnDemandWork<readonly CrosscheckedRouting[]>;

  /** @param tell  called at every change of the state */
  constructor(fftBinary: Uint8Array, tell: () => void) {
    this.#fftBinary = fftBinary;
    this.#work = new OnDemandWork(tell);
  }

  state(rig: Rig, take: RenderState["take"] | null): EngineCheck {
    return this.#work.state(rig, take);
  }

  /** @param ids  routings to check */
  check({ rig, take, clips }: RigTakeClips, ids: readonly string[]): Promise<void> {
    return this.#work.ask({ rig, take }, async (signal, onProgress) => {
      await initialiseFft(this.#fftBinary);
      const { rateHz } = take;
      const samples = takePart(take.samples, 0, secondsToFrames(playedSeconds, rateHz));
      const asWritten = chooseRoutings(rig, ids, null);
      const checked = await withCheckedReturns(rig, asWritten, { take: samples, rateHz, clips });
      return crosscheck({
        rig: checked.rig,
        routings: checked.choice.routings,
        clips,
        take: { samples, rateHz },
        renderer: "browser",
        openContext: (channels, frames, hz) => new OfflineAudioContext(channels, frames, hz),
        onProgress(done, what) {
          signal.throwIfAborted();
          onProgress(done, what);
        },
      });
    });
  }

  /** Gives up what is being worked out, before the next routing. */
  stop(): void {
    this.#work.stop();
  }
}
