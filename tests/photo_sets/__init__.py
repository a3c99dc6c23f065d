"""Photographs of bodies on the printed sheet, rendered; no code is shared with the reconstruction tried on them.

Rasterizing: VTK. Light: rays by Embree. Lens, film and JPEG: here. Of `moldwright` only the printed sheet's layout is
used, which is what the printer would have printed.
"""
