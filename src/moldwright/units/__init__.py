"""Reading and printing quantities: the one place where the house's units meet those that people write.

Inside everything is mm, g, ml, s and degC. `length_mm("1/2 in")`, `mass_g("3 lb 4 oz")` read what a person wrote
and refuse, in words, what could mean two things; `show_mass(434.2)` prints a quantity that reads back.
"""

from __future__ import annotations

from moldwright.units.clock import show_deadline, show_duration
from moldwright.units.printing import (
    range_parts,
    show_length,
    show_mass,
    show_range,
    show_scale_step,
    show_share,
    show_temperature,
    show_volume,
    show_volume_amount,
)
from moldwright.units.quantities import (
    duration_s,
    length_mm,
    mass_g,
    range_of,
    share,
    temperature_c,
    volume_ml,
)

__all__ = [
    "duration_s",
    "length_mm",
    "mass_g",
    "range_of",
    "range_parts",
    "share",
    "show_deadline",
    "show_duration",
    "show_length",
    "show_mass",
    "show_range",
    "show_scale_step",
    "show_share",
    "show_temperature",
    "show_volume",
    "show_volume_amount",
    "temperature_c",
    "volume_ml",
]
