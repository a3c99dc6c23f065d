"""A plan's solids for the screen: read from its folder, fewer triangles, a number at each place, one packed file."""
