"""Photos and files of a run, a lot, a mold, an edition, a recipe or a piece: kept by hash beside the store."""
