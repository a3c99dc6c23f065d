/** Labels: what is chosen and where it lies follows while one presses. */

import "../../parts/look_up";
