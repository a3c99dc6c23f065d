"""Editions: their numbers as places that are pressed, and where each piece is."""
