"""What the steps of the work are written from: the order, the chosen materials and every quantity reckoned so far."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.commission.orders import Commission
from moldwright.materials import Powder, Release, Resin, Rubber, Sealer, Shell
from moldwright.materials.compatibility import Finding
from moldwright.mold.volumes import MoldVolumes
from moldwright.plan.plan import (
    BandagePlan,
    CastPlan,
    CoatPlan,
    FillSpot,
    MixPlan,
    NeedPlan,
    PartPlan,
)
from moldwright.ranges import Range


@dataclass(frozen=True, slots=True)
class StepContext:
    """Everything a step may quote.

    Parameters
    ----------
    commission : the order as given, defaults filled in.
    rubber, resin, backfill, powder, shell, release, sealer : the chosen sheets. `powder` is None for an unfilled
        skin, `sealer` None where none is needed, `release` None where the original needs none. `resin` is the
        skin's, `backfill` the back-fill's.
    coats, flange, fill, spots, bandage, cast, mixes, needs : the plan's own values. `StepPlan.mixes` are indices
        into `mixes`: use `mixes_for(name)`; `for_` is a coat's name, "skin" or "back-fill" (mixes are of one cast).
    findings : the judgments of compatibility, "clear" ones included.
    volumes : the solids' measures.
    rubber_pot_life_s, resin_pot_life_s, backfill_pot_life_s : [s] at the shop's temperature.
    glove_g : predicted weight of the peeled glove, trimmed [g].
    shell_g : predicted weight of the dry shell, all pieces [g].
    carries_g : what the cups of each coat hold together, its share of flange and fill included [g], as `coats`.
    """

    commission: Commission
    rubber: Rubber
    resin: Resin
    backfill: Resin | None
    powder: Powder | None
    shell: Shell
    release: Release | None
    sealer: Sealer | None
    coats: tuple[CoatPlan, ...]
    flange: PartPlan
    fill: PartPlan
    spots: tuple[FillSpot, ...]
    bandage: BandagePlan | None
    cast: CastPlan
    mixes: tuple[MixPlan, ...]
    needs: tuple[NeedPlan, ...]
    findings: tuple[Finding, ...]
    volumes: MoldVolumes
    rubber_pot_life_s: Range
    resin_pot_life_s: Range
    backfill_pot_life_s: Range | None
    glove_g: Range
    shell_g: Range
    carries_g: tuple[float, ...]

    def mixes_for(self, name: str) -> tuple[int, ...]:
        """Indices of the mixes whose `for_` is `name`, cup 1 first."""
        return tuple(i for i, mix in enumerate(self.mixes) if mix.for_ == name)
