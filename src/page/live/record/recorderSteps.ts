import type { RecordedFacts, RecorderState } from "../../contract/recorder.js";

/** What happens to a recorder. */
export type RecorderStep =
  | { readonly kind: "count"; readonly left: number }
  | { readonly kind: "record" }
  /** Ended, with a sound in it or with none. */
  | { readonly kind: "end"; readonly facts: RecordedFacts | null }
  | { readonly kind: "discard" };

/**
 * What a recorder does after a step. What was recorded goes by `discard` and by nothing else: all that would put another
 * thing in its place is refused.
 * @throws Error for a step that the state does not allow
 */
export function afterStep(state: RecorderState, step: RecorderStep): RecorderState {
  const isRunning = state.kind === "counting" || state.kind === "recording";
  switch (step.kind) {
    case "count":
      if (state.kind === "ready" || state.kind === "recording") throw refused(state, step);
      return { kind: "counting", left: step.left };
    case "record":
      if (state.kind === "ready") throw refused(state, step);
      return { kind: "recording" };
    case "end":
      if (!isRunning) throw refused(state, step);
      return step.facts ? { kind: "ready", facts: step.facts } : { kind: "idle" };
    case "discard":
      if (isRunning) throw refused(state, step);
      return { kind: "idle" };
  }
}

const refused = (state: RecorderState, step: RecorderStep): Error =>
  new Error(`a recorder that is ${state.kind} does not ${step.kind}`);
