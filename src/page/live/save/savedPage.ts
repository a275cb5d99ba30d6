import { checkRig } from "../../../rig/file/parseRig.js";
import type { RigText } from "../../../rig/file/rigText.js";
import { encodeWav } from "../../../sound/audio/encodeWav.js";
import type { Take } from "../../../sound/audio/take.js";
import { andList } from "../../../text/words.js";
import { benchTitle, pageTitle, plainAnswer, plainBench } from "../../../words/pageWords.js";
import type { PageData } from "../../contract/pageData.js";
import { pageHtml } from "../../file/pageHtml.js";
import type { BenchState } from "../benchState.js";
import { type EngineInputs, type PageInputs, scriptIds } from "../pageInputs.js";
import { toBase64 } from "../takeFiles/bytes.js";
import { in24Bits, mostTravelLetters } from "../takeFiles/in24Bits.js";

/** What the page knows at the moment of saving. */
type SavedState = Pick<BenchState, "rig" | "take" | "report" | "kept"> & Pick<EngineInputs, "clips">;

/** A page as one file, and what had no room in it, as a sentence; null when all has. */
export interface SavedPage {
  readonly html: string;
  readonly leftOut: string | null;
}

/** The page as it would have been made with this rig and take. */
export async function savedPage(page: PageInputs, rigText: RigText, state: SavedState): Promise<SavedPage> {
  const isWhole = checkRig(rigText.text, rigText.file).rig !== null;
  const report = isWhole ? state.report : null;
  const isAsItCame = rigText.text === page.inputs.rigText.text;
  const { overTakes, sweep } = page.data;
  const data: PageData = {
    report,
    // Saved to be mailed: to who plays the rig, or, where it is not whole, to who goes on with it.
    opensOn: report ? "short" : "everything",
    ...(isAsItCame && overTakes ? { overTakes } : {}),
    ...(isAsItCame && sweep ? { sweep } : {}),
  };
  const takes = takesToTravel(page.inputs.takes, state.take);
  const clips = clipsToTravel(state.clips);
  const { kept } = state;
  const rig = isWhole ? state.rig : null;
  const inputs: EngineInputs = { ...page.inputs, rig, rigText, takes, clips, kept };
  const { script, scriptHash, licences } = await ownScripts();
  const html = pageHtml({
    title: state.rig ? pageTitle(state.rig.name) : benchTitle,
    plain: report ? plainAnswer(report) : plainBench,
    script,
    scriptHash,
    licences,
    data: {
      [scriptIds.data]: data,
      [scriptIds.inputs]: inputs,
      [scriptIds.engine]: page.engineSource,
      [scriptIds.fft]: toBase64(page.fftBinary),
    },
  });
  const leftOut = [
    ...(state.take !== null && takes.length === 0 ? [state.take.file] : []),
    ...Object.keys(state.clips).filter((name) => !Object.hasOwn(clips, name)),
  ];
  return {
    html,
    leftOut: leftOut.length > 0 ? `The page is saved without ${andList(leftOut)}: ${tooLong}` : null,
  };
}

const tooLong = "what is too long to travel in a page is sent beside it, and brought in there.";

/** The take that is heard first, then those that came with the page; none when that has no room. */
function takesToTravel(came: EngineInputs["takes"], take: Take | null): EngineInputs["takes"] {
  if (!take) return came;
  const known = came.find(({ facts }) => facts.sha256 === take.sha256);
  const rest = came.filter((each) => each !== known);
  if (known) return [known, ...rest];
  const { sides, scale, isRounded } = in24Bits(take.samples);
  const file = toBase64(encodeWav({ rateHz: take.rateHz, channels: sides }, 24, take.file));
  if (file.length > mostTravelLetters) return [];
  const { samples: _, ...facts } = take;
  return [{ facts, take: { file, scale, isRounded } }, ...rest];
}

/** Sound files that settings name, as far as there is room. */
function clipsToTravel(clips: EngineInputs["clips"]): EngineInputs["clips"] {
  let room = mostTravelLetters;
  const fitting = Object.entries(clips).filter(([, { length }]) => {
    if (length > room) return false;
    room -= length;
    return true;
  });
  return Object.fromEntries(fitting);
}

/** What runs here, as it stands in the document. */
async function ownScripts() {
  const script = document.querySelector("body > script:not([type])")?.textContent ?? "";
  const licences = document.querySelector(".licences pre")?.textContent ?? "";
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(script)));
  return { script, licences, scriptHash: toBase64(hash) };
}
