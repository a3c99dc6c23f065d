"""The whole job: from a commission and a scan to a plan and its solids."""

from __future__ import annotations

from dataclasses import dataclass, replace

from moldwright.commission.orders import Commission, MoldOrder
from moldwright.errors import InputRefused
from moldwright.geometry.mesh import Mesh
from moldwright.job.assumed import geometry_assumptions
from moldwright.job.measured import Measured
from moldwright.job.named_meshes import named_meshes
from moldwright.job.reckoning import Quantities, quantities
from moldwright.job.solids_chain import KeptSolids, solids_for
from moldwright.materials import Library
from moldwright.mold.coats import coat_layers
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.volumes import MoldVolumes
from moldwright.plan.json_text import plan_to_json
from moldwright.plan.plan import SCHEMA_VERSION, GlovePlan, Plan
from moldwright.progress import Progress
from moldwright.quantities.chosen import chosen
from moldwright.ranges import Range
from moldwright.scan.scan import Scan
from moldwright.store.hashing import hash_of
from moldwright.store.memory import Store
from moldwright.store.stage import Kept

HAND_LOW, HAND_HIGH = 0.95, 1.12


@dataclass(frozen=True, slots=True, eq=False)
class Planned:
    """A plan and its solids."""

    plan: Plan
    solids: KeptSolids

    @property
    def meshes(self) -> dict[str, Mesh]:
        """The solids by their file name in the plan's folder."""
        return named_meshes(self.solids.mounted.value, self.solids.glove.value, self.solids.shell.value)


def make_plan(
    commission: Commission,
    scan: Kept[Scan] | Scan,
    library: Library,
    store: Store,
    progress: Progress,
    own_steps_text: str = "",
) -> Planned:
    """Plan a commission: the solids, the quantities, the steps.

    Only what depends on a changed input is computed again; the rest comes from the store.

    Parameters
    ----------
    commission : the order.
    scan : the original as read.
    library : all material sheets.
    store : where stages are kept.
    progress : told the stages.
    own_steps_text : the maker's own steps file.

    Raises InputRefused and NoSafePlan as the stages do.
    """
    _only_two_pieces(commission.mold)
    settings = shell_settings(commission, library)
    coats_mm = tuple(layer.thickness_mm for layer in coat_layers(commission.mold.thickness_mm, commission.mold.coats))
    _gels_not_before_work(commission, library)
    solids = solids_for(
        scan, commission.original, commission.mold, coats_mm, commission.cast.skin_mm, settings,
        commission.shop.units, store, progress,
    )  # fmt: skip
    measured = solids.measured.value
    reckoned = quantities(commission, library, measured.volumes, own_steps_text)
    plan = _plan(commission, library, settings, measured, reckoned)
    return Planned(replace(plan, plan_hash=hash_of(plan_to_json(plan))[:8].upper()), solids)


def shell_settings(commission: Commission, library: Library) -> ShellSettings:
    """The shell's dimensions from its material's sheet.

    Parameters
    ----------
    commission : the order.
    library : all material sheets.
    """
    sheet = chosen(commission, library).shell
    usual = ShellSettings()
    lip_mm = max(usual.base_lip_mm, sheet.beyond_rubber_mm.likely)
    return replace(usual, wall_mm=sheet.thickness_mm.likely, base_lip_mm=lip_mm)


def _only_two_pieces(mold: MoldOrder) -> None:
    if mold.pieces not in (None, 2):
        raise InputRefused(
            "pieces-not-yet", mold.pieces, 2, "pieces", "Shells in two pieces are planned so far: write pieces = 2."
        )


def _gels_not_before_work(commission: Commission, library: Library) -> None:
    """Refuse what no geometry can mend before any is computed: quantities of a thimble of a mold."""
    thimble = MoldVolumes(
        coat_ml=tuple(1.0 for _ in coat_layers(commission.mold.thickness_mm, commission.mold.coats)),
        flange_ml=1.0, fill_ml=1.0, glove_ml=5.0, spots=(), original_ml=10.0, original_area_mm2=2000.0, plinth_ml=0.0,
        plinth_height_mm=0.0, cavity_ml=10.0, cavity_area_mm2=2000.0, mouth_area_mm2=500.0, flange_area_mm2=1000.0,
        shell_area_mm2=3000.0, shell_ml=20.0, seam_mm=50.0, seam_flange_mm=25.0, base_lip_mm=15.0, height_mm=30.0,
        widest_mm=20.0, handles=0, skin_ml=5.0, skin_kept_ml=5.0,
    )  # fmt: skip
    quantities(commission, library, thimble)


def _plan(
    commission: Commission,
    library: Library,
    settings: ShellSettings,
    measured: Measured,
    reckoned: Quantities,
) -> Plan:
    return Plan(
        schema_version=SCHEMA_VERSION,
        name=commission.original.name or commission.original.file.rpartition("/")[2].rpartition(".")[0],
        plan_hash="",
        units=commission.shop.units,
        assumed=(*geometry_assumptions(commission, measured, settings), *reckoned.assumed),
        original=measured.original,
        mouth=measured.mouth,
        glove=_glove_plan(measured.volumes, reckoned),
        shell=measured.shell,
        bandage=reckoned.bandage,
        cast=reckoned.cast,
        mixes=reckoned.mixes,
        needs=reckoned.needs,
        steps=reckoned.steps,
        cautions=(*measured.cautions, *reckoned.cautions),
        rubber=library.rubber(commission.mold.rubber).name,
        temperature_c=commission.shop.temperature_c,
    )


def _glove_plan(volumes: MoldVolumes, reckoned: Quantities) -> GlovePlan:
    likely = volumes.glove_ml
    spread = Range(HAND_LOW * likely, likely, HAND_HIGH * likely)
    return GlovePlan(spread, reckoned.coats, reckoned.flange, reckoned.fill, reckoned.spots)
