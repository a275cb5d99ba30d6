import { ended } from "../text/words.js";
import type { Show } from "./command.js";
import type { CompareJob } from "./prepareCompare.js";
import type { Progress } from "./progress.js";

/** What a listener should know of the takes, on standard error. */
export function tellTakes({ take, moreTakes }: CompareJob, show: Show): void {
  for (const { file, notices } of [take, ...moreTakes])
    for (const notice of notices) show.note(`${file}: ${ended(notice)}`);
}

/** Works on takes that were read, stoppable and with a bar, and gives back the disk that they lie on. */
export async function onTakes<T>(
  { take, moreTakes }: CompareJob,
  bar: Progress,
  work: (how: { readonly signal: AbortSignal; readonly onProgress: Progress["at"] }) => Promise<T>,
): Promise<T> {
  const { closeTake, stoppable } = await import("./work.js");
  try {
    return await stoppable((signal) => work({ signal, onProgress: bar.at }), bar.end);
  } finally {
    bar.end();
    for (const each of [take, ...moreTakes]) closeTake(each);
  }
}
