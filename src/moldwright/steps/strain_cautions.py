"""A caution on the first peeling of a glove that is not slit: how hard it is, and where it stretches most."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.ids import StepId
from moldwright.plan.lines import Line
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.plan.strain import PeelEffort, StrainPlan
from moldwright.units.constants import GRAVITY_M_S2

SOURCE = "computed: a neo-Hookean sheet drawn off the coated piece; modulus by Gent from the rubber's hardness"
SAYS: Mapping[PeelEffort, str] = MappingProxyType(
    {
        PeelEffort.EASY: "shape.strain-easy",
        PeelEffort.FIRM: "shape.strain-firm",
        PeelEffort.SLIT: "shape.strain-slit",
    }
)


def strain_cautions(strain: StrainPlan | None) -> Iterable[Caution]:
    """How hard it is to peel, and where to go slowly.

    Parameters
    ----------
    strain : how far the glove stretches; None where it is slit, or nobody knows.
    """
    if strain is None:
        return
    lines, quantities = (
        [Line(SAYS[strain.effort])],
        [Quantity("strain.most", Dimension.SHARE, strain.most_99_pct * 0.01)],
    )
    if strain.caught is not None:
        lines = [Line("shape.strain-caught"), Line("shape.strain-free")]
        quantities = [Quantity("strain.caught", Dimension.LENGTH, strain.caught[2])]
    elif strain.places:
        lines.append(Line("shape.strain-where"))
        quantities.append(Quantity("strain.up", Dimension.LENGTH, strain.places[0].at[2]))
    if strain.pull_n is not None:
        lines.append(Line("shape.strain-pull"))
        quantities.append(Quantity("strain.pull", Dimension.LIFT, strain.pull_n * (1.0 / GRAVITY_M_S2)))
    easy, slit = strain.effort is PeelEffort.EASY, strain.effort is PeelEffort.SLIT
    severity = Severity.NOTE if easy else Severity.HEED
    yield caution(
        StepId("peel"), "stretches", severity, tuple(lines), SOURCE, tuple(quantities), particular=True, ruins=slit
    )
