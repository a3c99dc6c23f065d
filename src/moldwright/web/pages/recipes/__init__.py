"""Recipes of colors and metals: as they were really mixed, and scaled."""
