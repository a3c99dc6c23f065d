"""What the maker asks for: one commission, every value in the house's units, defaults marked as such."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from enum import StrEnum

from moldwright.geometry.seam_kind import Seam
from moldwright.geometry.section_shape import Hollows, SectionShape
from moldwright.photos.ask import Bowl
from moldwright.photos.sheet.layout import BAR_MM
from moldwright.units.read_off import ReadOff
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


class LimbSide(StrEnum):
    """Which side of the body a limb stands off from, as one looks at the front."""

    LEFT = "left"
    RIGHT = "right"
    FRONT = "front"
    BACK = "back"


class SlitSide(StrEnum):
    """Where a glove may be slit that cannot be peeled whole: where it shows least, nowhere, or on a side."""

    AUTO = "auto"
    NONE = "none"
    FRONT = "front"
    RIGHT = "right"
    BACK = "back"
    LEFT = "left"


@dataclass(frozen=True, slots=True)
class GapOrder:
    """What no outline shows: a recess, bowl or gap, `count` alike; `length_mm` None: as long as it is wide."""

    where: str
    depth_mm: float
    width_mm: float
    length_mm: float | None = None
    count: int = 1


@dataclass(frozen=True, slots=True)
class LevelOrder:
    """One place of the tape: how far up (or along a limb), and what was measured there."""

    at_mm: float
    girth_mm: float
    breadth_mm: float | None = None
    depth_mm: float | None = None
    shape: SectionShape | None = None


@dataclass(frozen=True, slots=True)
class LimbOrder:
    """A limb by its own levels, counted along it from where it joins.

    `gap_mm` : the widest gap between it and the body where its end meets the body again, a hole to see through; None
        where its end is free. `ends_at_mm` : how high its end is; None: as high as it joins.
    """

    name: str
    joins_at_mm: float
    levels: tuple[LevelOrder, ...]
    ends_at_mm: float | None = None
    gap_mm: float | None = None
    side: LimbSide | None = None
    count: int = 1
    shape: SectionShape | None = None
    hollows: Hollows | None = None


@dataclass(frozen=True, slots=True)
class TapeOrder:
    """The original by tape measure: the body's levels from the board up, and its limbs."""

    levels: tuple[LevelOrder, ...]
    shape: SectionShape | None = None
    limbs: tuple[LimbOrder, ...] = ()
    hollows: Hollows | None = None


@dataclass(frozen=True, slots=True)
class OriginalOrder:
    """The piece to copy, known by at least one of a scan, photos, a tape, displaced water and its weight.

    A scan needs exactly one of `height_mm` and `unit` unless its file carries a unit. `bar_mm` and `solid` None: not
    said; what then stands is `bar_on_print_mm` and `weighed_solid`.
    """

    file: str = ""
    name: str = ""
    height_mm: float | None = None
    unit: ScanUnit | None = None
    up: str | tuple[float, float, float] | None = None
    board_mm: float | None = None
    material: str = "unknown"
    photos: str = ""
    bar_mm: float | None = None
    leave_out: tuple[str, ...] = ()
    tape: TapeOrder | None = None
    displaced_ml: ReadOff | None = None
    weight_g: ReadOff | None = None
    density_g_ml: ReadOff | None = None
    solid: bool | None = None
    gaps: tuple[GapOrder, ...] = ()
    bowls: tuple[Bowl, ...] = ()

    @property
    def called(self) -> str:
        """As the maker calls the piece, else by its scan's file or its photos' folder.

        >>> OriginalOrder("scans/stag.stl").called, OriginalOrder(photos="stag/").called
        ('stag', 'stag')
        """
        file = self.file.rpartition("/")[2].rpartition(".")[0]
        return self.name or file or self.photos.rstrip("/").rpartition("/")[2] or "Original"

    @property
    def bar_on_print_mm(self) -> float:
        """What the sheet's bar measures on the print, 100 mm where it was not measured [mm]."""
        return BAR_MM if self.bar_mm is None else self.bar_mm

    @property
    def weighed_solid(self) -> bool:
        """Whether the weighed piece is solid all through; taken so where it is not said."""
        return self.solid is not False


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
    """`coats` empty: `thickness_mm` is split into the usual three; `pieces` None: recommended; `printed_wall_mm`
    None: by the shell's sheet; `level_cuts_mm` empty: at shares of the height."""

    rubber: str = "addition-cure-a10-slow"
    thickness_mm: float = 4.0
    coats: tuple[CoatOrder, ...] = ()
    pieces: int | None = None
    shell: str = "plaster bandage"
    printed_wall_mm: float | None = None
    seam: Seam = Seam.WALL
    draft_deg: int = 0
    hangs_mm: float | None = None
    drips_mm: float | None = None
    slit: SlitSide = SlitSide.AUTO
    level_cuts_mm: tuple[float, ...] = ()
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
    printer_width_mm: float = 220.0
    printer_depth_mm: float = 220.0
    printer_height_mm: float = 250.0
    measure: Measure = Measure.WEIGHT
    marks_ml: float = 2.0
    paper: Paper = Paper.A4
    units: UnitSystem = UnitSystem.METRIC
    people: int = 1
    hours: str = "09:00-17:00"
    hour: Decimal = Decimal("30.00")
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
    def printer_mm(self) -> tuple[float, float, float]:
        """What its printer holds: width, depth, height [mm]."""
        return self.printer_width_mm, self.printer_depth_mm, self.printer_height_mm

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
