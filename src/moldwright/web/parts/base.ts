/** What every page loads. */

import "./form";
import "./outbox/tray";
import "./trial";
