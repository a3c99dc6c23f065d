"""The bench: a run on a screen beside the cup, pressed with a knuckle, offline for a while."""
