"""Stage: the hollows of the body that could hold the rubber."""

from __future__ import annotations

from moldwright.mold.behind_necks import hollows_of
from moldwright.mold.mouth import Mounted
from moldwright.mold.trapped import HollowsFound


def hollows_in(mounted: Mounted) -> HollowsFound:
    """The hollows that are wider than the way into them.

    Parameters
    ----------
    mounted : the original on its plinth.
    """
    return hollows_of(mounted.body)
