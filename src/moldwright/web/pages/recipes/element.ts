/** Recipes: looked through, scaled while one types, kept from a cup or part by part. */

import "../../parts/act";
import "../../parts/look_up";
import "./more_parts";
