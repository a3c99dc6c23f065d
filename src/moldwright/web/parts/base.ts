/** What every page loads. */

import "./form";
import "./look";
import "./outbox/tray";
import "./trial";
