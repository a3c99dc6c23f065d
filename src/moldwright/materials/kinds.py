"""The kinds of sheets as frozen dataclasses: what is known of one generic class of material."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from moldwright.materials.figure import Figure, Pack
from moldwright.materials.words import Carrier, Chemistry, Fit, Kind, Making, Side, Tag

Ratio = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """What every sheet has.

    tags : what it is made of or does, as the compatibility rules name it.
    hazards : GHS H codes. cautions : the shop's own words on top of them.
    own_file : the shop's file that the sheet was read from; None: a class that Moldwright ships.
    provenance : where every value that is no Figure comes from, as (field, source).
    """

    kind: ClassVar[Kind]
    id: str
    name: str
    own_file: str | None
    tags: tuple[Tag, ...]
    packs: tuple[Pack, ...]
    hazards: tuple[str, ...]
    cautions: tuple[str, ...]
    provenance: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoPart(Sheet):
    """Two parts that cure when they meet. Times hold at `pot_life_temperature_c` and, the pot life, in
    `pot_life_mass_g`. Ratios are (A, B); `isocyanate_part` is A, B or none; B None: one part, ratio (1, 0).
    `ratio_tolerance_pct`: by how much the ratio by weight may be off; None: as its chemistry usually takes it.
    `part_a`, `part_b`: what the trade calls the parts, base and catalyst; "": by their letters alone."""

    chemistry: Chemistry
    density_a_g_ml: Figure
    density_b_g_ml: Figure | None = None
    ratio_weight: Ratio
    ratio_volume: Ratio
    pot_life_s: Figure
    pot_life_mass_g: Figure
    pot_life_temperature_c: Figure
    activation_kj_mol: Figure
    mix_s: Figure
    tack_free_s: Figure
    demold_s: Figure
    full_cure_s: Figure
    shrinkage_pct: Figure
    viscosity_pa_s: Figure
    tensile_mpa: Figure
    shelf_life_days: Figure
    isocyanate_part: Side = Side.NONE
    ratio_tolerance_pct: Figure | None = None
    part_a: str = ""
    part_b: str = ""

    @property
    def two_part(self) -> bool:
        """Whether two parts meet, so that a clock starts."""
        return self.density_b_g_ml is not None and self.ratio_weight[1] > 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Rubber(TwoPart):
    """A mold rubber. `tack_window_s`: the (earliest, latest) start of the next coat after this one is laid.
    `solids_pct`: the share by weight that stays once it is dry or cured.

    How thick it is laid, least, usual and most: `detail_mm` a first coat of several, `coat_mm` any coat, `glove_mm` all
    together. What dries and does not cure has two more: `pass_mm` a layer that is dried before the next, `pack_mm` one
    of fill; None: a coat is laid, a place is packed, in one go."""

    kind: ClassVar[Kind] = Kind.RUBBER

    tack_window_s: tuple[Figure, Figure]
    shore_a: Figure
    elongation_pct: Figure
    tear_kn_m: Figure
    solids_pct: Figure
    detail_mm: Figure
    coat_mm: Figure
    glove_mm: Figure
    pass_mm: Figure | None = None
    pack_mm: Figure | None = None
    pigment_part: Side = Side.B


@dataclass(frozen=True, slots=True, kw_only=True)
class Resin(TwoPart):
    """A casting resin. `powder_part`: where powder is wetted out; `weight_only`: never measure by volume; `fit`: what
    it is used for, as far as its pot life in the shop allows."""

    kind: ClassVar[Kind] = Kind.RESIN

    heat_j_g: Figure
    powder_max_vol_pct: Figure
    shore_d: Figure | None = None
    elongation_pct: Figure | None = None
    powder_part: Side = Side.A
    tint_part: Side = Side.A
    weight_only: bool = False
    fit: tuple[Fit, ...] = tuple(Fit)


@dataclass(frozen=True, slots=True, kw_only=True)
class Powder(Sheet):
    """A powder or filler: density of the grain and of a loosely filled cup."""

    kind: ClassVar[Kind] = Kind.POWDER

    true_density_g_ml: Figure
    apparent_density_g_ml: Figure
    particle_um: Figure
    grade: str = ""
    drying_temperature_c: Figure | None = None
    drying_s: Figure | None = None
    shelf_life_days: Figure | None = None

    @property
    def metal(self) -> bool:
        """Whether its grains are metal; every other powder is mineral."""
        return Tag.METAL in self.tags

    @property
    def aluminum(self) -> bool:
        """Whether it is aluminum, which burns and gives off gas with water."""
        return Tag.ALUMINUM in self.tags


@dataclass(frozen=True, slots=True, kw_only=True)
class Shell(Sheet):
    """A support shell's material; `making`: how it is made.
    `beyond_rubber_mm` is how far it reaches past the rubber's edge;
    `set_s` until it is stiff, `handling_s` until it may be taken off; `water_g_g` per gram dry; `mat_g_m2` of the
    matting that is laid in, in squares of `mat_square_mm`."""

    kind: ClassVar[Kind] = Kind.SHELL

    making: Making
    thickness_mm: Figure
    density_g_ml: Figure | None = None
    beyond_rubber_mm: Figure
    ply_thickness_mm: Figure | None = None
    plies: Figure | None = None
    layers: Figure | None = None
    dry_g_m2: Figure | None = None
    water_g_g: Figure | None = None
    fiber_pct: Figure | None = None
    mat_g_m2: Figure | None = None
    mat_square_mm: Figure | None = None
    roll_width_mm: Figure | None = None
    roll_length_mm: Figure | None = None
    strip_length_mm: Figure | None = None
    set_s: Figure | None = None
    handling_s: Figure | None = None
    expansion_pct: Figure | None = None
    peak_temperature_c: Figure | None = None
    shelf_life_days: Figure | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Coating(Sheet):
    """What is brushed, sprayed or wiped on: per coat `coverage_g_m2`; `dry_s` after each coat."""

    coverage_g_m2: Figure
    coats: Figure
    dry_s: Figure
    density_g_ml: Figure
    carrier: Carrier = Carrier.NONE
    shelf_life_days: Figure | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Release(Coating):
    """A release agent. `thinner_pct`: how much of its `carrier` the shop stirs in, of what it brushes on; None:
    it is brushed on as it is bought."""

    kind: ClassVar[Kind] = Kind.RELEASE

    thinner_pct: Figure | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sealer(Coating):
    """A sealer."""

    kind: ClassVar[Kind] = Kind.SEALER


@dataclass(frozen=True, slots=True, kw_only=True)
class Wax(Coating):
    """A wax for the shell or for the finish."""

    kind: ClassVar[Kind] = Kind.WAX


@dataclass(frozen=True, slots=True, kw_only=True)
class Additive(Sheet):
    """What is stirred in: share by weight of the mix, usual and at most; `goes_in` names the part."""

    dose_pct: Figure
    dose_max_pct: Figure
    density_g_ml: Figure
    goes_in: str = "B"
    shelf_life_days: Figure | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pigment(Additive):
    """A pigment for rubber or a tint for resin."""

    kind: ClassVar[Kind] = Kind.PIGMENT

    color: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Thixotrope(Additive):
    """A thixotropic agent. `yield_stress_pa`: the yield stress of rubber that holds its usual dose, wet."""

    kind: ClassVar[Kind] = Kind.THIXOTROPE

    yield_stress_pa: Figure | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Consumable(Sheet):
    """What is used up or must be at hand: `rate_per_use` of `unit` for each `per`; `holds_n`: what one of it holds
    together, a band or strap by the pull in it."""

    kind: ClassVar[Kind] = Kind.CONSUMABLE

    rate_per_use: Figure
    unit: str
    per: str
    density_g_ml: Figure | None = None
    coverage_g_m2: Figure | None = None
    holds_n: Figure | None = None
    shelf_life_days: Figure | None = None


KINDS: dict[str, type[Sheet]] = {
    each.kind: each for each in (Rubber, Resin, Powder, Shell, Release, Sealer, Wax, Pigment, Thixotrope, Consumable)
}
"""The type of each kind of sheet."""
