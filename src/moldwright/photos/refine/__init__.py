"""Recesses that outlines cannot show, found where the surface has speckles that photos can be matched by."""
