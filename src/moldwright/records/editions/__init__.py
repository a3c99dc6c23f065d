"""Editions and their numbered pieces: which number is whose, where a piece is, what is left."""
