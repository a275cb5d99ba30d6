import { reverbLaws } from "./reverbLaws.js";

reverbLaws("spring");
