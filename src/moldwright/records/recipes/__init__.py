"""Recipes of colors and metals: kept as they were really mixed, scaled to another amount."""
