"""What nobody gave: the commission's defaults and the class figures that the quantities rest on."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from moldwright.cast.piece import LEAST_CORE_ML, SOLID_SHARE
from moldwright.cast.resin_limits import POUR_G_PER_MIN, SKIN_POUR_SHARE
from moldwright.commission.keys import keys
from moldwright.commission.orders import Commission
from moldwright.cure.potlife import ShopLife
from moldwright.materials import Figure, Resin, Rubber, Sheet, Shell
from moldwright.materials.words import Making
from moldwright.mixing.cup import CUP_FILL
from moldwright.mold.measures import PASSES_MM
from moldwright.plan.assumptions import Assumption
from moldwright.plan.cast import CastPlan, CastWay, SolidWhy
from moldwright.quantities.chosen import Chosen
from moldwright.quantities.gypsum import BUCKET_FILL, LAY_G_PER_MIN, MIX_S, WORKABLE_SHARE
from moldwright.quantities.mixed import HAND, POT_RESIDUE
from moldwright.quantities.pot_lives import PotLives

COMMON = "common practice, no source"


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
            if key.dotted not in commission.given and value not in (None, "", ()) and value is not False:
                number = isinstance(value, int | float)
                told = str(value) if isinstance(value, Decimal) else value
                rows.append(Assumption(key.dotted, told, key.unit if number else "", "default"))
    return tuple(rows)


def class_assumptions(chosen: Chosen, lives: PotLives) -> tuple[Assumption, ...]:
    """The sheets' figures behind the quantities, each with its own provenance, and the shop's habits assumed.

    Parameters
    ----------
    chosen : the sheets
    lives : pot lives at the shop's temperature

    Source: the sheets; common practice, no source.
    """
    timed = ((chosen.rubber, lives.rubber), (chosen.resin, lives.resin), (chosen.backfill, lives.backfill))
    mixes = [(sheet, life) for sheet, life in timed if sheet is not None and life is not None]
    rows = [row for sheet, _ in mixes for row in _densities(sheet)]
    rows += [_pot_life(sheet, life) for sheet, life in mixes]
    if chosen.powder is not None:
        rows.append(_figure(chosen.powder, "apparent_density_g_ml", chosen.powder.apparent_density_g_ml))
        rows.append(_figure(chosen.powder, "true_density_g_ml", chosen.powder.true_density_g_ml))
    return tuple(dict.fromkeys([*rows, *_coatings(chosen), *HABITS, *_shell(chosen.shell)]))


def solid_assumption(cast: CastPlan) -> tuple[Assumption, ...]:
    """That the cast is solid, where the commission did not say so.

    Parameters
    ----------
    cast : one cast

    Source: computed from the solids.
    """
    if cast.solid_why in (None, SolidWhy.ORDERED):
        return ()
    return (Assumption("cast.solid", CastWay.SOLID.value, "", "computed: no core that is worth a cup of back-fill"),)


def _densities(sheet: Rubber | Resin) -> Iterable[Assumption]:
    yield _figure(sheet, "density_a_g_ml", sheet.density_a_g_ml)
    if sheet.density_b_g_ml is not None:
        yield _figure(sheet, "density_b_g_ml", sheet.density_b_g_ml)


def _figure(sheet: Sheet, name: str, figure: Figure) -> Assumption:
    return Assumption(f"{sheet.kind}.{sheet.id}.{name}", figure.range, figure.unit, figure.source)


def _pot_life(sheet: Rubber | Resin, life: ShopLife) -> Assumption:
    source = "computed: Arrhenius from the sheet; cups use the low end"
    return Assumption(f"{sheet.kind}.{sheet.id}.pot_life", life.pot_life_s, "s", source)


def _coatings(chosen: Chosen) -> Iterable[Assumption]:
    coatings = (
        ("mold.release", chosen.release),
        ("mold.sealer", chosen.sealer),
        ("cast.release", chosen.cast_release),
    )
    for key, sheet in coatings:
        yield Assumption(key, sheet.name if sheet else "none", "", f"{COMMON}, where the commission names none")


def _shell(shell: Shell) -> tuple[Assumption, ...]:
    return SHELL_HABITS if shell.making is Making.GYPSUM else ()


SHELL_HABITS = (
    Assumption("shell.lay", LAY_G_PER_MIN, "g/min", COMMON),
    Assumption("shell.mix", MIX_S, "s", COMMON),
    Assumption("shell.workable", WORKABLE_SHARE, "of one", f"{COMMON}; of its setting time"),
    Assumption("bucket.fill", BUCKET_FILL, "of one", COMMON),
)
"""Where a shell is mixed."""
HABITS = (
    Assumption("cup.fill", CUP_FILL, "of one", COMMON),
    Assumption("coat.by_hand", HAND, "of one", COMMON),
    Assumption("core.passes", PASSES_MM, "mm", f"{COMMON}; a gap that back-fill is poured through"),
    Assumption("core.least", LEAST_CORE_ML, "ml", f"{COMMON}; a smaller core is cast solid"),
    Assumption("core.share", SOLID_SHARE, "of one", f"{COMMON}; of the cavity: a smaller core is cast solid"),
    Assumption("cup.residue", POT_RESIDUE, "of one", f"{COMMON}; only where more than shop.waste"),
    Assumption("resin.pour", POUR_G_PER_MIN, "g/min", COMMON),
    Assumption("skin.pour_share", SKIN_POUR_SHARE, "of one", f"{COMMON}; of the time left after mixing"),
)
