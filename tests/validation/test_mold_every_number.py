"""Real sculpture in every number of shell pieces: what is planned comes off, and no number is refused that another
would allow without saying so. The check: `coming_off`, which shares no code with the first one.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from coming_off import PLANNED, check_comes_off, plan

from moldwright.plan.mold import MOST_PIECES
from moldwright.store.memory import MemoryStore

SOURCE = ("Reference libraries manifold3d (overlap of solids) and trimesh with embreex (rays)",)

pytestmark = pytest.mark.slow


@pytest.mark.parametrize("name", PLANNED)
def test_every_number_of_pieces_comes_off(name: str, tmp_path: Path) -> None:
    """Each is planned, free on its way out, and collides where it is pushed in; the search is made once."""
    store = MemoryStore()
    for pieces in range(1, MOST_PIECES + 1):
        planned = plan(name, tmp_path, pieces, store)
        shell = planned.plan.shell
        assert len(shell.pieces) == pieces
        assert shell.removal.checked
        assert (shell.removal.overlap_mm3, shell.removal.rays_blocked) == (0.0, 0)
        check_comes_off(planned)
