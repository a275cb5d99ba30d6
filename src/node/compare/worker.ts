import { serve } from "../threads/thread.js";
import { doJob } from "./renderJobs.js";

serve(doJob);
