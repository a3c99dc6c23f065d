"""The finished solids of a job, together."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.job.rubbering import Glove
from moldwright.job.standing import Gaps, Settled
from moldwright.mold.glove import CoatedBody
from moldwright.mold.mouth import Mounted
from moldwright.mold.shell import Shell
from moldwright.mold.skin import Skin


@dataclass(frozen=True, slots=True, eq=False)
class Solids:
    """The finished solids of a job."""

    settled: Settled
    mounted: Mounted
    gaps: Gaps
    skin: Skin
    coated: CoatedBody
    shell: Shell
    glove: Glove
