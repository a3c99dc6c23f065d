"""Kept files: handed out by their hash, taken in as raw bytes."""
