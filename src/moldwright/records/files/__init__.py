"""Photos and files of a run, a lot, a mold, an edition or a recipe: kept by hash beside the store."""
