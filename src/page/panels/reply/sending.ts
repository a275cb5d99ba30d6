import { button } from "../../widgets/button.js";
import { el, setText } from "../../widgets/dom.js";
import type { View } from "../view.js";

/** A text on its way out of the page. */
interface Outgoing {
  readonly title: string;
  readonly text: string;
}

/** Ways to send a text: copied, shared where the browser shares, or as a mail that the person's own program writes. */
export function sendingOf({ say }: View) {
  let outgoing: Outgoing = { title: "", text: "" };
  const told = el("p", { class: "hint" });
  const tell = (words: string) => {
    setText(told, words);
    say(words);
  };
  const mail = el("a", {}, "Write a mail");
  const share = button("Share", () => {
    // A person who closes the list of programs has not failed.
    navigator.share(outgoing).catch((error: unknown) => {
      if (!(error instanceof DOMException && error.name === "AbortError")) tell(cannotShare);
    });
  });
  share.hidden = typeof navigator.share !== "function";
  return {
    /** This is sent from now on. */
    offer(now: Outgoing): void {
      outgoing = now;
      setText(told, "");
      mail.href = mailAddress(now);
    },
    /** @param field  that shows the text, to copy from where the browser does not copy by itself */
    nodes(field: HTMLTextAreaElement): readonly HTMLElement[] {
      const copy = button("Copy the text", () => void copied(outgoing.text, field).then(tell), "strong");
      return [el("div", { class: "actions" }, copy, share, mail), told];
    },
  };
}

async function copied(text: string, field: HTMLTextAreaElement): Promise<string> {
  try {
    await navigator.clipboard.writeText(text);
    return copiedWords;
  } catch {
    field.focus();
    field.select();
    // The older way, where a page from disk or from a mail is not given the newer one.
    if (document.execCommand("copy")) return copiedWords;
    return "This browser does not copy for a page. The text is marked: copy it by Ctrl+C, or by a long press.";
  }
}

const copiedWords = "Copied: paste it into your reply.";
const cannotShare = "This browser could not share it: copy the text instead.";

/** A mail to nobody yet. Lines end as RFC 6068, section 5, asks. */
const mailAddress = ({ title, text }: Outgoing): string =>
  `mailto:?subject=${encodeURIComponent(title)}&body=${encodeURIComponent(text.replaceAll("\n", "\r\n"))}`;
