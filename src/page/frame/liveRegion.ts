import { el, setText } from "../widgets/dom.js";

/** A polite live region: the last sentence, said once. */
export function liveRegion(): { readonly node: HTMLElement; say(sentence: string): void } {
  const node = el("p", { class: "visually-hidden", role: "status", "aria-live": "polite" });
  let waiting: ReturnType<typeof setTimeout> | undefined;
  return {
    node,
    say(sentence) {
      clearTimeout(waiting);
      setText(node, "");
      waiting = setTimeout(() => setText(node, sentence), 60);
    },
  };
}
