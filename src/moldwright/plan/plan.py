"""The plan: what `plan.json` holds, as frozen dataclasses. A stage that does not exist yet has no field here."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.ranges import Range
from moldwright.scan.repairs import Repair

SCHEMA_VERSION = 1

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Assumption:
    """A value that nobody gave. `source`: default, class default, common practice, found, sheet, computed."""

    key: str
    value: str
    source: str


@dataclass(frozen=True, slots=True)
class Caution:
    """A warning that stands on a step. `severity`: "note", "heed" or "stop". `step`: a step's id or ""."""

    step: str
    severity: str
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class Hole:
    """A through-hole (handle) of the original: where, how wide the opening is, and what it needs at the bench."""

    at: Point
    width_mm: float
    remedy: str


@dataclass(frozen=True, slots=True)
class OriginalPlan:
    volume_ml: float
    area_cm2: float
    height_mm: float
    watertight: bool
    source: str
    repairs: tuple[Repair, ...]
    holes: tuple[Hole, ...]
    resolution_mm: float
    error_mm: float


@dataclass(frozen=True, slots=True)
class PlinthPlan:
    height_mm: float
    volume_ml: float


@dataclass(frozen=True, slots=True)
class MouthPlan:
    area_mm2: float
    narrowest_mm: float
    loops: int
    plinth: PlinthPlan | None


@dataclass(frozen=True, slots=True)
class CoatPlan:
    name: str
    thickness_mm: float
    volume_ml: float
    net_g: float
    mixed_g: Range
    thixotrope_pct: float
    pigment: str
    cups: int
    gesture: str = "brush"


@dataclass(frozen=True, slots=True)
class PartPlan:
    """Rubber that is no coat: the flange or the fill."""

    volume_ml: float
    net_g: float
    mixed_g: Range


@dataclass(frozen=True, slots=True)
class FillSpot:
    """One place where undercuts are packed: where, how deep [mm], how much, and after which coat."""

    at: Point
    depth_mm: float
    volume_ml: float
    net_g: float
    after_coat: str


@dataclass(frozen=True, slots=True)
class GlovePlan:
    volume_ml: Range
    coats: tuple[CoatPlan, ...]
    flange: PartPlan
    fill: PartPlan
    spots: tuple[FillSpot, ...]


@dataclass(frozen=True, slots=True)
class PiecePlan:
    """One piece of the shell; `file` relative to the plan's folder, `draw` a unit vector."""

    file: str
    draw: Point
    fill_ml: float
    volume_ml: float


@dataclass(frozen=True, slots=True)
class RemovalPlan:
    checked: bool
    overlap_mm3: float
    offsets: int
    rays: int
    rays_blocked: int
    control_overlap_mm3: float


@dataclass(frozen=True, slots=True)
class SeamHeight:
    """Height of the seam above the board on the two sides of the piece, every 15 degrees [mm]; None where no seam."""

    angle_deg: float
    height_mm: float | None


@dataclass(frozen=True, slots=True)
class ShellPlan:
    pieces: tuple[PiecePlan, ...]
    seam_mm: float
    seam_table: tuple[SeamHeight, ...]
    thickness_mm: float
    removal: RemovalPlan


@dataclass(frozen=True, slots=True)
class SkinPlan:
    thickness_mm: float
    volume_ml: float


@dataclass(frozen=True, slots=True)
class CastPlan:
    """`volume_ml` is the cavity; `mass_g` the finished piece; `shrinkage_mm` on its height."""

    volume_ml: float
    skin: SkinPlan
    backfill_ml: float
    mass_g: Range
    loading_wt_pct: float
    loading_vol_pct: float
    yield_pct: float
    shrinkage_mm: Range


@dataclass(frozen=True, slots=True)
class MixPart:
    """One part of a cup in its order; `scale_reads_g` is the running total with the empty cup zeroed once."""

    name: str
    mass_g: float
    volume_ml: float
    scale_reads_g: float


@dataclass(frozen=True, slots=True)
class MixPlan:
    """One cup. `for_` (JSON: `for`) is a coat's name, "skin" or "back-fill"; `cup` counts from 1 within it."""

    for_: str
    cup: int
    parts: tuple[MixPart, ...]
    work_by_s: float
    tolerance_pct: float
    smallest_batch_g: float


@dataclass(frozen=True, slots=True)
class NeedPlan:
    """Something to have at hand: `amount` with its `unit` (g, ml, each, m), and what it is for."""

    id: str
    name: str
    amount: Range
    unit: str
    for_: str


@dataclass(frozen=True, slots=True)
class BandagePlan:
    plies: int
    layers: int
    strips: int
    strip_length_mm: float
    strip_width_mm: float
    rolls: int
    dry_g: float
    water_ml: float
    wax_g: float
    talc_g: float
    clay_g: float


@dataclass(frozen=True, slots=True)
class StepPlan:
    """One step of the work. `needs`: what must be true or at hand; `cautions`: texts that stand on the step;
    `mixes`: indices into the plan's `mixes`; `per`: "mold" once, "cast" for every cast, "edition" once at its end."""

    id: str
    title: str
    per: str
    labor_min: float
    wait_min: Range | None
    needs: tuple[str, ...]
    do: tuple[str, ...]
    before: tuple[str, ...]
    cautions: tuple[str, ...]
    mixes: tuple[int, ...]
    lift_kg: float | None


@dataclass(frozen=True, slots=True)
class Plan:
    """The whole plan. `rubber`: the chosen class's name; `temperature_c`: the shop's; both head every sheet."""

    schema_version: int
    name: str
    plan_hash: str
    units: str
    assumed: tuple[Assumption, ...]
    original: OriginalPlan
    mouth: MouthPlan
    glove: GlovePlan
    shell: ShellPlan
    bandage: BandagePlan | None
    cast: CastPlan
    mixes: tuple[MixPlan, ...]
    needs: tuple[NeedPlan, ...]
    steps: tuple[StepPlan, ...]
    cautions: tuple[Caution, ...]
    rubber: str = ""
    temperature_c: float | None = None
