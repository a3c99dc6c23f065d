"""The plan: what `plan.json` holds, as frozen dataclasses. A stage that does not exist yet has no field here."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.materials.words import Making
from moldwright.plan.assumptions import Assumption
from moldwright.plan.cast import CastPlan
from moldwright.plan.cautions import Caution
from moldwright.plan.clocks import CurePlan
from moldwright.plan.closure import ClosurePlan
from moldwright.plan.coats import CoatPlan
from moldwright.plan.doubt import MoldDoubt
from moldwright.plan.flange import FlangePlan
from moldwright.plan.ids import CautionId, CoatId, MixId
from moldwright.plan.life import LifePlan
from moldwright.plan.mixes import MixFor, MixPlan
from moldwright.plan.mold import BandagePlan, GlovePlan, MatsPlan, PartingPlan, ShellPlan
from moldwright.plan.needs import NeedPlan
from moldwright.plan.original import MouthPlan, OriginalPlan
from moldwright.plan.printing import PrintPlan
from moldwright.plan.stand import StandPlan
from moldwright.plan.steps import StepPlan
from moldwright.plan.strategies import StrategiesPlan
from moldwright.plan.totals import TotalsPlan
from moldwright.units.system import UnitSystem

SCHEMA_VERSION = 11
OLDEST_READ = 10
"""The oldest plan that this version reads: a run goes on by its own plan. Fields that came later have defaults."""


@dataclass(frozen=True, slots=True)
class Plan:
    """The whole plan.

    `marks_ml`: the step of the cups' marks where all is measured by volume, None where it is weighed to `scale_g`.
    `cures`: what cures by itself. `count`: casts of the edition; `rubber`: the chosen class's name, `temperature_c`:
    the shop's; both head every sheet; `shell_making`: how the shell is made. `doubt`: what of the mold is
    sure, where the original was not scanned. `life`: how many casts the glove gives;
    `strategies`: other kinds of mold beside it; `mats`: the matting in a shell of gypsum; `stand`: in which the mold is
    poured, None where none was found.
    """

    schema_version: int
    name: str
    plan_hash: str
    units: UnitSystem
    assumed: tuple[Assumption, ...]
    original: OriginalPlan
    mouth: MouthPlan
    flange: FlangePlan
    glove: GlovePlan
    shell: ShellPlan
    bandage: BandagePlan | None
    printing: PrintPlan | None
    parting: PartingPlan
    closure: ClosurePlan
    cast: CastPlan
    mixes: tuple[MixPlan, ...]
    needs: tuple[NeedPlan, ...]
    steps: tuple[StepPlan, ...]
    cautions: tuple[Caution, ...]
    totals: TotalsPlan
    rubber: str
    shell_making: Making
    temperature_c: float
    scale_g: float
    marks_ml: float | None
    count: int
    cures: tuple[CurePlan, ...] = ()
    doubt: MoldDoubt | None = None
    life: LifePlan | None = None
    strategies: StrategiesPlan | None = None
    mats: MatsPlan | None = None
    stand: StandPlan | None = None

    def mix(self, id_: MixId) -> MixPlan:
        """The cup of that id."""
        return next(mix for mix in self.mixes if mix.id == id_)

    def mixes_for(self, for_: MixFor) -> tuple[MixPlan, ...]:
        """All cups for the same thing, cup 1 first."""
        return tuple(mix for mix in self.mixes if mix.for_ == for_)

    def coat(self, id_: CoatId) -> CoatPlan:
        """The coat of that id."""
        return next(coat for coat in self.glove.coats if coat.id == id_)

    def caution(self, id_: CautionId) -> Caution:
        """The caution of that id."""
        return next(caution for caution in self.cautions if caution.id == id_)
