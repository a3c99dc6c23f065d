"""The printed sheet that the piece stands on: sizes, markers, bar."""
