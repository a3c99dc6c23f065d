"""Moldwright engineers a brushed glove mold, its support shell and the cold cast from a scan and a commission."""

__version__ = "0.1.0"
