/** The page `bench`: a run at the bench, or the list of runs. */

import { register } from "../../parts/offline";
import { Bench } from "./bench";

customElements.define("mw-bench", Bench);
register();
