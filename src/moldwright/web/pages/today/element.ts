/** Today: long work goes on under one's eyes. */

import "../../parts/work";
