import { reverbLaws } from "./reverbLaws.js";

reverbLaws("plate");
