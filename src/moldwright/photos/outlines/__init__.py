"""The outline of the piece on each photo."""
