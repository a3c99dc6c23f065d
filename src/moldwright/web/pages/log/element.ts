/** The log's page: photos with notes, and sheets that are typed in by the keyboard alone. */

import "../../parts/photo";
import "./paper";
