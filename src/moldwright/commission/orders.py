"""What the maker asks for: one commission, every value in the house's units, defaults marked as such."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from enum import StrEnum

from moldwright.geometry.seam_kind import Seam
from moldwright.units.system import UnitSystem


class ScanUnit(StrEnum):
    """The unit that a scan's numbers are in."""

    MM = "mm"
    CM = "cm"
    M = "m"
    INCH = "in"
    FOOT = "ft"


class Measure(StrEnum):
    """How A and B are measured out."""

    WEIGHT = "weight"
    VOLUME = "volume"


class Paper(StrEnum):
    """The paper in the printer."""

    A4 = "a4"
    LETTER = "letter"


@dataclass(frozen=True, slots=True)
class OriginalOrder:
    """The piece to copy. Exactly one of `height_mm` and `unit` is needed unless the file carries a unit."""

    file: str
    name: str = ""
    height_mm: float | None = None
    unit: ScanUnit | None = None
    up: str | tuple[float, float, float] | None = None
    board_mm: float | None = None
    material: str = "unknown"


@dataclass(frozen=True, slots=True)
class EditionOrder:
    """How many casts are made."""

    count: int = 1


@dataclass(frozen=True, slots=True)
class CoatOrder:
    """One coat of rubber as the maker wants it."""

    name: str
    thickness_mm: float


@dataclass(frozen=True, slots=True)
class MoldOrder:
    """`coats` empty: `thickness_mm` is split into the usual three; `pieces` None: recommended."""

    rubber: str = "addition-cure-a10-slow"
    thickness_mm: float = 4.0
    coats: tuple[CoatOrder, ...] = ()
    pieces: int | None = None
    shell: str = "plaster bandage"
    seam: Seam = Seam.WALL
    flange_mm: float = 40.0
    mouth_width_mm: float = 20.0
    mouth_share: float = 0.1
    release: str = ""
    sealer: str = ""


@dataclass(frozen=True, slots=True)
class CastOrder:
    """The cold cast: ids or names of materials, the skin's thickness, whether all is cast solid of its mix."""

    resin: str = "urethane-standard"
    powder: str = "bronze"
    skin_mm: float = 4.0
    backfill: str = "urethane-standard"
    solid: bool = False
    release: str = ""


@dataclass(frozen=True, slots=True)
class ShopOrder:
    """The shop: its climate, its tools and its habits."""

    temperature_c: float = 22.0
    scale_g: float = 0.1
    cup_ml: float = 500.0
    bucket_ml: float = 5000.0
    measure: Measure = Measure.WEIGHT
    marks_ml: float = 2.0
    paper: Paper = Paper.A4
    units: UnitSystem = UnitSystem.METRIC
    people: int = 1
    hours: str = "09:00-17:00"
    waste: float = 0.08
    mix_min: float = 3.0
    lay_g_per_min: float = 25.0
    sheets: str = ""
    steps: str = ""

    @property
    def by_volume(self) -> bool:
        """Whether it works without a scale."""
        return self.measure is Measure.VOLUME

    @property
    def hours_min(self) -> tuple[float, float]:
        """Opening and closing time, counted from midnight [min].

        >>> ShopOrder(hours="09:00-17:30").hours_min
        (540.0, 1050.0)
        """
        opens, _, closes = self.hours.partition("-")
        return _minutes(opens), _minutes(closes)


def _minutes(clock: str) -> float:
    hours, _, minutes = clock.partition(":")
    return 60.0 * int(hours) + int(minutes)


@dataclass(frozen=True, slots=True)
class Commission:
    """The whole order. `given` holds the dotted keys that the maker wrote; all others are defaults."""

    original: OriginalOrder
    edition: EditionOrder = field(default_factory=EditionOrder)
    mold: MoldOrder = field(default_factory=MoldOrder)
    cast: CastOrder = field(default_factory=CastOrder)
    shop: ShopOrder = field(default_factory=ShopOrder)
    prices: tuple[tuple[str, Decimal], ...] = ()
    given: tuple[str, ...] = ()
