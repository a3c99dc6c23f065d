"""Pieces: what the shop was asked to copy, each with its commission, its files, its plans and its runs."""
