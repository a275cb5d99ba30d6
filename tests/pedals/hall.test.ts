import { reverbLaws } from "./reverbLaws.js";

reverbLaws("hall");
