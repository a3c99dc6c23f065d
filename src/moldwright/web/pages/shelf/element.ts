/** The shelf: looked through, added to, opened, counted; how a stock goes down, drawn. */

import "../../parts/act";
import "../../parts/look_up";
import "./stock_plot";
