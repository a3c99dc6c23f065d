/** What every page loads. */

import "./look";
