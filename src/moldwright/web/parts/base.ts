/** What every page loads. */

import "./print";
import "./form";
import "./outbox/tray";
import "./trial";
