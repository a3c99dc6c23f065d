"""What nobody gave: the commission's defaults and the class figures that the quantities rest on."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from moldwright.cast.resin_limits import POUR_G_PER_MIN, SKIN_POUR_SHARE
from moldwright.commission.keys import Key, keys
from moldwright.commission.orders import Commission
from moldwright.materials import Figure, Resin, Rubber, Sheet
from moldwright.mixing.cup import CUP_FILL
from moldwright.plan.plan import Assumption
from moldwright.quantities.chosen import Chosen
from moldwright.quantities.rubber import HAND, POT_RESIDUE
from moldwright.ranges import Range
from moldwright.units import show_length, show_mass, show_share, show_temperature, show_volume

COMMON = "common practice, no source"
PRINTED: dict[str, Callable[[float, str], str]] = {
    "length": show_length,
    "mass": show_mass,
    "volume": show_volume,
    "temperature": show_temperature,
}


def default_assumptions(commission: Commission) -> tuple[Assumption, ...]:
    """Every key of the commission that was left out and has a default.

    Parameters
    ----------
    commission : the order; `given` holds the dotted keys that the maker wrote

    Source: the commission's own defaults.
    """
    rows = []
    for table, named in keys().items():
        order = getattr(commission, table)
        for key in named.values():
            value = getattr(order, key.field)
            if key.dotted not in commission.given and value not in (None, "", ()):
                rows.append(Assumption(key.dotted, _printed(key, value, commission.shop.units), "default"))
    return tuple(rows)


def _printed(key: Key, value: object, units: str) -> str:
    if not isinstance(value, int | float):
        return str(value)
    if key.kind == "share":
        return show_share(float(value), 0)
    if key.kind in PRINTED:
        return PRINTED[key.kind](float(value), units)
    return f"{value:g} {key.unit}".strip()


def class_assumptions(chosen: Chosen, pot_lives: Iterable[tuple[Sheet, Range]]) -> tuple[Assumption, ...]:
    """The sheets' figures behind the quantities, each with its own provenance, and the shop's habits assumed.

    Parameters
    ----------
    chosen : the sheets
    pot_lives : material and its pot life at the shop's temperature [s]

    Source: the sheets; common practice, no source.
    """
    rows = [row for sheet in _two_parts(chosen) for row in _densities(sheet)]
    rows += [_pot_life(sheet, pot_life) for sheet, pot_life in pot_lives]
    if chosen.powder is not None:
        rows.append(_figure(chosen.powder.id, "apparent_density_g_ml", chosen.powder.apparent_density_g_ml))
        rows.append(_figure(chosen.powder.id, "true_density_g_ml", chosen.powder.true_density_g_ml))
    rows += _materials(chosen)
    return tuple(dict.fromkeys([*rows, *_habits()]))


def _two_parts(chosen: Chosen) -> list[Rubber | Resin]:
    return [sheet for sheet in (chosen.rubber, chosen.resin, chosen.backfill) if sheet is not None]


def _densities(sheet: Rubber | Resin) -> Iterable[Assumption]:
    yield _figure(sheet.id, "density_a_g_ml", sheet.density_a_g_ml)
    if sheet.density_b_g_ml is not None:
        yield _figure(sheet.id, "density_b_g_ml", sheet.density_b_g_ml)


def _figure(id_: str, name: str, figure: Figure) -> Assumption:
    return Assumption(f"{id_}.{name}", _range(figure.range, figure.unit), figure.source)


def _pot_life(sheet: Sheet, pot_life: Range) -> Assumption:
    minutes = _range(pot_life * (1 / 60), "min")
    return Assumption(f"{sheet.id}.pot_life", minutes, "computed: Arrhenius from the sheet; cups use the low end")


def _materials(chosen: Chosen) -> Iterable[Assumption]:
    for kind, sheet in (("release", chosen.release), ("sealer", chosen.sealer)):
        yield Assumption(f"mold.{kind}", sheet.name if sheet else "none", f"{COMMON}, where the commission names none")


def _habits() -> Iterable[Assumption]:
    yield Assumption("cup.fill", show_share(CUP_FILL, 0), COMMON)
    yield Assumption("coat.by_hand", _range(HAND * 100, "%"), COMMON)
    yield Assumption("cup.residue", _range(POT_RESIDUE * 100, "%"), f"{COMMON}; only where more than shop.waste")
    yield Assumption("resin.pour", f"{POUR_G_PER_MIN:g} g/min", COMMON)
    yield Assumption("skin.pour_share", f"{SKIN_POUR_SHARE:.2f} of the time left after mixing", COMMON)


def _range(value: Range, unit: str) -> str:
    if value.low == value.high:
        return f"{value.likely:.3g} {unit}"
    return f"{value.likely:.3g} {unit} ({value.low:.3g}–{value.high:.3g})"
