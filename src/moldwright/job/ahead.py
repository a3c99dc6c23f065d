"""What a commission tells before any solid is there: what would be refused, which materials do not go together, and
about how much rubber it takes where a volume is known."""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum

from moldwright.commission.orders import Commission
from moldwright.errors import NoSafePlan
from moldwright.job.planning import refuse_print_of_a_guess, shell_settings
from moldwright.job.rough import rough_rubber
from moldwright.job.rough_measures import likely_measures
from moldwright.job.sources import refuse_pieces_without_form
from moldwright.materials import Library
from moldwright.mold.flange_room import keep_from_wall_mm
from moldwright.original.evidence.only_volume import OnlyVolume, only_volume
from moldwright.plan.cautions import Caution
from moldwright.plan.original import Source
from moldwright.quantities.quantities import Basis, basis_of, quantities
from moldwright.ranges import Range
from moldwright.steps.before_start import ruinous
from moldwright.steps.shape_cautions import NO_SHAPE
from moldwright.steps.written import work

ANY_ML = 500.0
"""A volume to write steps by where none is known: what is said of pairs of materials hangs on no volume."""


@dataclass(frozen=True, slots=True)
class Foretold:
    """What can ruin the job by its materials, whatever its form; and the rubber to mix [g], None where no volume is
    known."""

    cautions: tuple[Caution, ...]
    rubber_g: Range | None


def foretold(commission: Commission, library: Library, source: Source, known: OnlyVolume | None) -> Foretold:
    """What is known of a job before it is planned.

    Parameters
    ----------
    commission : the order.
    library : all material sheets.
    source : what gives the original's form.
    known : its volume and height, None where nobody knows them yet.

    Raises InputRefused and NoSafePlan as a plan would, for all that needs no solid. Source: the stages' own.
    """
    mold = commission.mold
    refuse_pieces_without_form(mold, source)
    basis = basis_of(commission, library)
    shell_settings(basis.chosen.shell, mold)
    refuse_print_of_a_guess(basis.chosen.shell, source)
    keep_from_wall_mm(mold.flange_mm, fsum(coat.thickness_mm for coat in basis.coats))
    rubber = rough_rubber(commission, library, basis, known) if known is not None else None
    return Foretold(_of_pairs(commission, library, basis), rubber)


def _of_pairs(commission: Commission, library: Library, basis: Basis) -> tuple[Caution, ...]:
    mold, coats_mm = commission.mold, tuple(coat.thickness_mm for coat in basis.coats)
    known, settings = only_volume(Range.exactly(ANY_ML)), shell_settings(basis.chosen.shell, mold)
    measures = likely_measures(known, mold, commission.cast.skin_mm, coats_mm, settings)
    try:
        done = work(quantities(commission, library, basis, measures), library, NO_SHAPE)
    except NoSafePlan:
        return ()
    return tuple(each for each in ruinous(done.cautions) if each.between)
