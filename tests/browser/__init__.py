"""The desk tried in a real browser."""
