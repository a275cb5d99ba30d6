import { z } from "zod";

// Compiled checks need `eval`, which the page's policy forbids, and do not pay for a rig that is read once.
z.config({ jitless: true });

export { z };
