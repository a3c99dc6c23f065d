"""Other figures of the sheets against what was measured or standardized: each sheet's range must hold it.

A tolerance of half the last printed digit; where a standard gives a least value, the likely value must not fall below.
"""

from __future__ import annotations

import pytest

from moldwright.materials import library
from moldwright.materials.sheet_fields import figure_rules

TABLE = "Open table of polyurethane thermosets, matmake.com, after Cardarelli, Materials Handbook (2018)"
EPOXY = "Yang et al., Fiber Reinforced Plastics/Composites 2016 (1) 74-78 (abstract): epoxy, 7.55 % by volume"
BUDINSKI = "Princeton MAE324 glossary, after Budinski & Budinski, Engineering Materials (1999): epoxy, 0.01 %"
OSMAN = "Osman et al., Malaysian Polymer Journal 7 (2012) 46-55 (abstract): viscosity of polyester in styrene"
EXPANSION = "LLNL-TR-426277, Small & Wilson, doi 10.2172/975213 (abstract): silicone expands 4e-4 per K"
KHAN = "Khan et al., J. Int. Soc. Prev. Community Dent. 10 (2020) 736 (abstract): addition silicone keeps its size"
SALTWIKI = "Saltwiki, bassanite, after Dana 1951: 2.64 g/ml"
NIOSH_PLASTER = "NIOSH Pocket Guide npgd0518, plaster of Paris: specific gravity 2.5"
DENTAL = "Dental materials text, ch. 8, Gypsum materials, Table 8.2: water per 100 g of plaster, stone, die stone"
MANAPPALLIL = "Manappallil, Basic Dental Materials, 4th ed., ch. 18: setting expansion 0.05 to 0.5 %"
SET_GYPSUM = "doi 10.21307/acee-2019-037 (2019), tables: set gypsum 998 kg/m3 at 35 days"
CONROY = "Conroy, Emerg. Med. Australas. 19 (2007) 320-324 (abstract): plaster slabs peak at 31.9 to 41.7 degC"
HUTCHINSON = "Hutchinson & Hutchinson, J. Orthop. Surg. Res. 3 (2008) 10, doi 10.1186/1749-799X-3-10: above 49 degC"
PARMAR = "Parmar et al., Veterinary World 7 (2014) 1123-1126: plaster bandage hardens in 45 to 60 min"
LATEX = "ISO 2004 (2017, 2024; summaries): latex concentrate, dry rubber and total solids"
NATURAL = "Thermopedia, Natural rubber: specific gravity 0.93"
FUMED = "NIOSH Manual of Analytical Methods, method 7501: fumed silica 2.2 g/ml"
AMORPHOUS = "NIOSH Pocket Guide npgd0552, amorphous silica: 2.20"
ISOPROPYL = "NIOSH Pocket Guide npgd0359, isopropyl alcohol: 0.79"
NRC = "National Research Council, Emergency and Continuous Exposure Limits 2 (1984) 57: isopropyl alcohol 0.786"
PASTE = "Peng et al., e-Polymers 2021, doi 10.1515/epoly-2021-0012: silicone base with fumed silica over 2000 Pa s"
SOFT = "PMC11019708, Table 2: a silicone of 12 Shore A, 3.5 MPa and 680 %"
MELINDER = "Melinder 2010, carried by CoolProp 5.0.6 (PMS1): unfilled silicone fluid, 1172.35 - 0.9025 T kg/m3"
SOURCE = (
    *(TABLE, EPOXY, BUDINSKI, OSMAN, EXPANSION, KHAN, SALTWIKI, NIOSH_PLASTER, DENTAL, MANAPPALLIL, SET_GYPSUM),
    *(CONROY, HUTCHINSON, PARMAR, LATEX, NATURAL, FUMED, AMORPHOUS, ISOPROPYL, NRC, PASTE, MELINDER, SOFT),
)
ADDITION = [sheet.id for sheet in library().all("rubber") if sheet.id.startswith("addition-cure")]
MEASURED = [
    ("resin", "urethane-fast", "tensile_mpa", (29.0, 49.0)),
    ("resin", "urethane-standard", "tensile_mpa", (29.0, 49.0)),
    ("resin", "urethane-clear", "tensile_mpa", (29.0, 49.0)),
    ("resin", "urethane-fast", "elongation_pct", (10.0, 21.0)),
    ("resin", "urethane-standard", "elongation_pct", (10.0, 21.0)),
    ("rubber", "addition-cure-a10-slow", "tensile_mpa", (3.5,)),
    ("rubber", "addition-cure-a10-fast", "tensile_mpa", (3.5,)),
    ("rubber", "addition-cure-a10-slow", "elongation_pct", (680.0,)),
    ("rubber", "addition-cure-a10-fast", "elongation_pct", (680.0,)),
    ("resin", "epoxy-slow", "shrinkage_pct", (0.01, 100 * (1 - (1 - 0.0755) ** (1 / 3)))),
    ("resin", "polyester", "viscosity_pa_s", (0.219, 0.0981)),
    ("resin", "modified-gypsum", "density_a_g_ml", (2.5, 2.64)),
    ("resin", "modified-gypsum", "shrinkage_pct", (-0.05, -0.5)),
    ("shell", "plaster-bandage", "handling_s", (45 * 60.0, 60 * 60.0)),
    ("shell", "plaster-bandage", "expansion_pct", (0.05, 0.5)),
    ("shell", "plaster-bandage", "peak_temperature_c", (31.9, 41.7, 49.0)),
    ("shell", "fiber-gypsum", "water_g_g", (0.25, 0.30, 0.40, 0.50)),
    ("shell", "fiber-gypsum", "expansion_pct", (0.05, 0.5)),
    ("thixotrope", "fumed-silica", "density_g_ml", (2.2,)),
    ("consumable", "isopropanol", "density_g_ml", (0.786, 0.79)),
]


@pytest.mark.parametrize(("kind", "id_", "key", "printed"), MEASURED)
def test_the_range_holds_what_is_printed(kind: str, id_: str, key: str, printed: tuple[float, ...]) -> None:
    figure = getattr(getattr(library(), kind)(id_), key)
    slack = 0.005 * abs(figure.likely)
    assert all(figure.low - slack <= value <= figure.high + slack for value in printed), figure


@pytest.mark.parametrize("rubber", ADDITION)
def test_addition_cure_keeps_its_size_at_room_temperature(rubber: str) -> None:
    """2.5 K at 4e-4 per K is 0.1 %; an oven cure 40 K hotter would be 1.6 % and must not be taken for it."""
    sheet = library().rubber(rubber)
    assert sheet.shrinkage_pct.high == pytest.approx(100 * 4e-4 * 2.5)
    assert "room temperature" in sheet.shrinkage_pct.source


@pytest.mark.parametrize("rubber", ADDITION)
def test_a_filled_rubber_is_denser_than_its_fluid(rubber: str) -> None:
    """The unfilled fluid at 298.15 K: 1172.35 - 0.9025 x 298.15 = 903 kg/m3; silica of 2.2 g/ml makes it denser."""
    assert library().rubber(rubber).density_a_g_ml.low > (1172.35 - 0.9025 * 298.15) / 1000


def test_latex_holds_what_the_standard_asks() -> None:
    """At least 60.0 % of dry rubber; total solids at least 61.0 or 61.5 % by edition."""
    solids = library().rubber("latex").solids_pct
    assert solids.low >= 60.0
    assert solids.likely >= 61.0
    assert library().rubber("latex").density_a_g_ml.likely == pytest.approx(1 / (0.61 / 0.93 + 0.39), rel=0.01)


def test_modified_gypsum_takes_the_water_of_a_die_stone() -> None:
    """19 to 24 g per 100 g, and more than the 18.6 g that it binds."""
    powder, water = library().resin("modified-gypsum").ratio_weight
    assert 19.0 <= 100 * water / powder <= 24.0


def test_a_published_paste_is_not_called_impossible() -> None:
    assert figure_rules()["viscosity_pa_s"].highest > 2000
