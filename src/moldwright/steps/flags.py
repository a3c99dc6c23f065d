"""The words on which a step, a line or a caution depends: which materials, which shape, how many."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from moldwright.geometry.seam_kind import Seam
from moldwright.materials.compatibility import Trial
from moldwright.materials.words import Chemistry, Making, Tag
from moldwright.plan.cast import CastWay
from moldwright.plan.mixes import BACK_FILL, SKIN
from moldwright.plan.peel import PeelWay
from moldwright.plan.stand import NoStand
from moldwright.quantities.knobs import knob_cup_of
from moldwright.quantities.quantities import Quantities

DEAIR_FROM_S = 600.0
"""From this likely pot life [s] on three to five minutes of it may go into de-airing: common practice, no source."""


class Flag(StrEnum):
    """Everything that a condition in the data may ask; it holds for a job or it does not."""

    SILICONE = "silicone"
    ADDITION_CURE = "addition-cure"
    CONDENSATION_CURE = "condensation-cure"
    URETHANE_RUBBER = "urethane-rubber"
    LATEX_RUBBER = "latex-rubber"
    THIN_LAYERS = "thin-layers"
    KNOBS = "knobs"
    RELEASE = "release"
    RELEASE_SOLVENT = "release-solvent"
    RELEASE_THINNED = "release-thinned"
    RELEASE_COATS = "release-coats"
    SEALER = "sealer"
    SEALER_SOLVENT = "sealer-solvent"
    BARRIER = "barrier"
    CAST_RELEASE = "cast-release"
    CAST_RELEASE_SOLVENT = "cast-release-solvent"
    CAST_RELEASE_THINNED = "cast-release-thinned"
    URETHANE_SKIN = "urethane-skin"
    EPOXY_SKIN = "epoxy-skin"
    POLYESTER_SKIN = "polyester-skin"
    GYPSUM_SKIN = "gypsum-skin"
    URETHANE_FILL = "urethane-fill"
    EPOXY_FILL = "epoxy-fill"
    POLYESTER_FILL = "polyester-fill"
    GYPSUM_FILL = "gypsum-fill"
    URETHANE_RESIN = "urethane-resin"
    BACK_FILL = "back-fill"
    SOLID = "solid"
    SEVERAL_SKIN_CUPS = "several-skin-cups"
    SEVERAL_FILL_CUPS = "several-fill-cups"
    WET_FIRST = "wet-first"
    TIME_TO_DEAIR = "time-to-deair"
    POWDER = "powder"
    POWDER_TEMPERATURE = "powder-temperature"
    METAL_POWDER = "metal-powder"
    MINERAL_POWDER = "mineral-powder"
    ALUMINUM_POWDER = "aluminum-powder"
    PRINTED_SHELL = "printed-shell"
    LAID_SHELL = "laid-shell"
    WALL_SEAM = "wall-seam"
    LAP_SEAM = "lap-seam"
    ONE_PIECE = "one-piece"
    BOLTED = "bolted"
    BOLTED_SEAM = "bolted-seam"
    BOLTED_BASE = "bolted-base"
    PRINT_LAID = "print-laid"
    PRINT_PARTED = "print-parted"
    ONE_PLATE = "one-plate"
    PINNED = "pinned"
    CLAMPED_SEAM = "clamped-seam"
    BANDED = "banded"
    STRAPPED = "strapped"
    PRESSED = "pressed"
    LIFTED = "lifted"
    ONLY_IN_ORDER = "only-in-order"
    STAND_BOARDS = "stand-boards"
    STANDS_ITSELF = "stands-itself"
    STAND_NOT_BORNE = "stand-not-borne"
    STAND_FALLS_OVER = "stand-falls-over"
    FIRST_LAID = "first-laid"
    LAST_LAID = "last-laid"
    FIBER_SHELL = "fiber-shell"
    MATS = "mats"
    BANDAGE = "bandage"
    BY_VOLUME = "by-volume"
    PLINTH = "plinth"
    HANDLES = "handles"
    DIVIDERS = "dividers"
    STOPPED_HOLES = "stopped-holes"
    SLIDES = "slides"
    ROLLS = "rolls"
    SLIT = "slit"
    PATCH_TEST = "patch-test"
    RESIN_TEST = "resin-test"
    POWDER_TEST = "powder-test"
    SHELL_TEST = "shell-test"
    MATERIAL_UNKNOWN = "material-unknown"
    EDITION = "edition"
    SCANNED = "scanned"
    COAT_STIPPLE = "coat-stipple"
    COAT_BRUSH = "coat-brush"
    COAT_STICK = "coat-stick"
    FIRST_COAT = "first-coat"
    LAST_COAT = "last-coat"
    SEVERAL_CUPS = "several-cups"
    SYRINGE = "syringe"
    NUMBERED_SPOTS = "numbered-spots"
    SMALL_SPOTS = "small-spots"
    FILL_AGAIN = "fill-again"
    PACKED_NEXT = "packed-next"


@dataclass(frozen=True, slots=True)
class Condition:
    """One word of a condition: that the flag is up, or, written "!flag", that it is not."""

    flag: Flag
    up: bool = True


def condition(word: str) -> Condition:
    """A condition's word as it stands in the data.

    Parameters
    ----------
    word : "powder" or "!powder"; ValueError for a word that is no flag.

    >>> condition("!plinth").up
    False
    """
    return Condition(Flag(word.removeprefix("!")), not word.startswith("!"))


def holds(when: Iterable[Condition], flags: frozenset[Flag]) -> bool:
    """Whether all words of a condition hold.

    Parameters
    ----------
    when : the condition.
    flags : those that are up for this job.

    >>> holds((condition("powder"), condition("!plinth")), frozenset({Flag.POWDER}))
    True
    """
    return all((word.flag in flags) is word.up for word in when)


def flags_of(job: Quantities) -> frozenset[Flag]:
    """All flags that are up for a job.

    Parameters
    ----------
    job : the order, the materials and the quantities.
    """
    words = {**_rubber(job), **_treated(job), **_cast(job), **_powder(job), **_shell(job), **_piece(job)}
    return frozenset(flag for flag, up in words.items() if up)


def _rubber(job: Quantities) -> dict[Flag, bool]:
    chosen = job.basis.chosen
    chemistry = chosen.rubber.chemistry
    return {
        Flag.SILICONE: chemistry.silicone,
        Flag.ADDITION_CURE: chemistry is Chemistry.ADDITION,
        Flag.CONDENSATION_CURE: chemistry is Chemistry.CONDENSATION,
        Flag.URETHANE_RUBBER: chemistry is Chemistry.URETHANE_RUBBER,
        Flag.LATEX_RUBBER: chemistry is Chemistry.LATEX,
        Flag.THIN_LAYERS: chosen.rubber.pass_mm is not None,
        Flag.KNOBS: knob_cup_of(job) is not None,
    }


def _treated(job: Quantities) -> dict[Flag, bool]:
    """What lies between the pairs, and which pairs are tried first."""
    chosen, trials = job.basis.chosen, job.basis.trials
    return {
        **_released(job),
        Flag.SEALER: chosen.sealer is not None,
        Flag.SEALER_SOLVENT: chosen.sealer is not None and chosen.sealer.carrier.burns,
        Flag.BARRIER: any(finding.barrier for finding in job.basis.findings),
        Flag.PATCH_TEST: Trial.ORIGINAL in trials,
        Flag.RESIN_TEST: Trial.RESIN in trials,
        Flag.POWDER_TEST: Trial.POWDER in trials,
        Flag.SHELL_TEST: Trial.SHELL in trials,
    }


def _released(job: Quantities) -> dict[Flag, bool]:
    release, cast = job.basis.chosen.release, job.basis.chosen.cast_release
    return {
        Flag.RELEASE: release is not None,
        Flag.RELEASE_SOLVENT: release is not None and release.carrier.burns,
        Flag.RELEASE_THINNED: release is not None and release.thinner_pct is not None,
        Flag.RELEASE_COATS: release is not None and release.coats.likely > 1,
        Flag.CAST_RELEASE: cast is not None,
        Flag.CAST_RELEASE_SOLVENT: cast is not None and cast.carrier.burns,
        Flag.CAST_RELEASE_THINNED: cast is not None and cast.thinner_pct is not None,
    }


def _cast(job: Quantities) -> dict[Flag, bool]:
    skin = job.basis.chosen.resin.chemistry
    back = job.basis.chosen.backfill.chemistry if job.basis.chosen.backfill else None
    urethane_fill = back is not None and back.urethane_resin
    return {
        Flag.URETHANE_SKIN: skin.urethane_resin,
        Flag.EPOXY_SKIN: skin is Chemistry.EPOXY,
        Flag.POLYESTER_SKIN: skin is Chemistry.POLYESTER,
        Flag.GYPSUM_SKIN: skin is Chemistry.GYPSUM,
        Flag.URETHANE_FILL: urethane_fill,
        Flag.EPOXY_FILL: back is Chemistry.EPOXY,
        Flag.POLYESTER_FILL: back is Chemistry.POLYESTER,
        Flag.GYPSUM_FILL: back is Chemistry.GYPSUM,
        Flag.URETHANE_RESIN: skin.urethane_resin or urethane_fill,
        Flag.SOLID: job.cast.cast.way is CastWay.SOLID,
        Flag.BACK_FILL: bool(job.mixes_for(BACK_FILL)),
        Flag.SEVERAL_SKIN_CUPS: len(job.mixes_for(SKIN)) > 1,
        Flag.SEVERAL_FILL_CUPS: len(job.mixes_for(BACK_FILL)) > 1,
        Flag.TIME_TO_DEAIR: job.basis.lives.resin.pot_life_s.likely >= DEAIR_FROM_S,
    }


def _powder(job: Quantities) -> dict[Flag, bool]:
    powder = job.basis.chosen.powder
    if powder is None:
        return {}
    return {
        Flag.POWDER: True,
        Flag.WET_FIRST: not job.cast.skin_mix.sifted,
        Flag.POWDER_TEMPERATURE: powder.drying_temperature_c is not None,
        Flag.METAL_POWDER: powder.metal,
        Flag.MINERAL_POWDER: not powder.metal,
        Flag.ALUMINUM_POWDER: powder.aluminum,
    }


def _shell(job: Quantities) -> dict[Flag, bool]:
    making, shell = job.basis.chosen.shell.making, job.measures.shell
    joined = making.by_hand and shell.pieces > 1
    return {
        Flag.ONE_PIECE: shell.pieces == 1,
        Flag.PRINTED_SHELL: making is Making.PRINTED,
        Flag.LAID_SHELL: making.by_hand,
        Flag.WALL_SEAM: joined and shell.seam is Seam.WALL,
        Flag.LAP_SEAM: joined and shell.seam is Seam.LAP,
        Flag.BOLTED: job.closure.bolts > 0,
        Flag.BOLTED_SEAM: job.closure.seam_bolts > 0,
        Flag.BOLTED_BASE: job.closure.base_bolts > 0,
        Flag.PRINT_LAID: job.printing is not None,
        Flag.PRINT_PARTED: job.printing is not None and job.printing.parts > shell.pieces,
        Flag.ONE_PLATE: job.printing is not None and len(job.printing.plates) == 1,
        Flag.PINNED: job.printing is not None and job.printing.pins > 0,
        Flag.CLAMPED_SEAM: job.closure.seam_clamps > 0,
        Flag.BANDED: job.closure.bands > 0,
        Flag.STRAPPED: job.closure.straps > 0,
        Flag.PRESSED: shell.pieces > 1 and job.closure.push_n > 0.0,
        Flag.LIFTED: any(kg > 0.0 for kg in job.closure.weights_kg),
        Flag.ONLY_IN_ORDER: shell.in_order,
        Flag.STAND_BOARDS: job.stand is not None and bool(job.stand.boards),
        Flag.STANDS_ITSELF: job.stand is not None and not job.stand.boards,
        Flag.STAND_NOT_BORNE: job.measures.stand is NoStand.NOT_BORNE,
        Flag.STAND_FALLS_OVER: job.measures.stand is NoStand.FALLS_OVER,
        Flag.FIBER_SHELL: making is Making.GYPSUM,
        Flag.BANDAGE: making is Making.BANDAGE,
        Flag.MATS: job.mats is not None,
    }


_PEELED = MappingProxyType({Flag.SLIDES: PeelWay.SLIDE, Flag.ROLLS: PeelWay.ROLL, Flag.SLIT: PeelWay.SLIT})


def _piece(job: Quantities) -> dict[Flag, bool]:
    way = job.measures.peel.plan.way
    return {
        Flag.BY_VOLUME: job.commission.shop.by_volume,
        Flag.PLINTH: job.measures.cavity.plinth_height_mm > 0.0,
        Flag.HANDLES: bool(job.measures.piece.holes),
        Flag.DIVIDERS: bool(job.measures.piece.dividers),
        Flag.STOPPED_HOLES: bool(job.measures.piece.stopped),
        Flag.MATERIAL_UNKNOWN: Tag.UNKNOWN in job.basis.chosen.material.tags,
        Flag.SCANNED: job.measures.spread.known,
        **{flag: way is of for flag, of in _PEELED.items()},
        Flag.EDITION: job.commission.edition.count > 1,
    }
