import { serve } from "../threads/thread.js";
import { doSweepJob } from "./sweepJobs.js";

serve(doSweepJob);
