"""Opening an edition, and making it smaller."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import Connection

from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.edition_events import EditionOpened, EditionResized, Series
from moldwright.log.event import About
from moldwright.log.ids import EditionId, SubjectId
from moldwright.records.clock import BenchClock
from moldwright.records.editions.edition import Edition, edition_of
from moldwright.records.editions.held import held
from moldwright.records.editions.read import editions_within
from moldwright.records.shop import Shop, append_within
from moldwright.records.told import line_told
from moldwright.records.within import events_within, hold
from moldwright.words.speaker import say

MOST = 100_000
"""Numbers of an edition at the most; our own, far above any that is cast by hand."""
_NAMES = "moldwright editions' names"


@dataclass(frozen=True, slots=True)
class NewEdition:
    """An edition that is to be opened.

    Parameters
    ----------
    name : what it is called; no other of the shop has that name.
    size, proofs : how many numbers and how many artist's proofs.
    material : of what its pieces are, in the maker's words.
    """

    name: str
    size: int
    proofs: int = 0
    material: str = ""


def open_edition(shop: Shop, clock: BenchClock, name: str, size: int, proofs: int = 0, material: str = "") -> Edition:
    """Open an edition.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    name, size, proofs, material : as of `NewEdition`.

    Raises InputRefused ("edition-size", "text-unusable"), RecordConflict ("edition-named").
    """
    with shop.writing() as connection:
        return open_edition_within(connection, clock, NewEdition(name, size, proofs, material))


def open_edition_within(connection: Connection, clock: BenchClock, new: NewEdition) -> Edition:
    """The same, in a transaction that does more.

    Parameters
    ----------
    connection : of the transaction.
    clock : of the bench that writes.
    new : what it is to be.

    Raises as `open_edition`.
    """
    called, of = line_told(new.name, "a name"), line_told(new.material, "a material", may_lack=True)
    _check(new.size, new.proofs)
    hold(connection, _NAMES)
    if any(each.name.casefold() == called.casefold() for each in editions_within(connection)):
        remedy = "Give the number in that one; another piece takes another name."
        raise RecordConflict("edition-named", called, "a name that no edition has", "", remedy)
    id_ = EditionId(SubjectId(clock.new_id()))
    append_within(connection, [clock.event(About.EDITION, id_, EditionOpened(called, new.size, new.proofs, of))])
    return _of(edition_of(events_within(connection, id_)))


def resize_edition(
    shop: Shop, clock: BenchClock, id_: EditionId, size: int, proofs: int | None = None, why: str = ""
) -> Edition:
    """Give an edition another size: any as long as it has no number, after that a smaller one that holds all given.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    id_ : which edition.
    size, proofs : how many numbers and artist's proofs; proofs None: as they are.
    why : in words.

    Raises InputRefused ("edition-size"), RecordConflict ("edition-grows", "edition-cut").
    """
    told = line_told(why, "a reason", may_lack=True)
    with held(shop, clock, id_) as hand:
        wanted = {Series.NUMBERED: size, Series.PROOF: hand.edition.proofs if proofs is None else proofs}
        _check(wanted[Series.NUMBERED], wanted[Series.PROOF])
        for series, most in wanted.items() if hand.edition.pieces else ():
            _check_smaller(hand.edition, series, most)
        hand.write(EditionResized(wanted[Series.NUMBERED], wanted[Series.PROOF], told))
        return _of(edition_of(events_within(hand.connection, id_)))


def _check_smaller(edition: Edition, series: Series, most: int) -> None:
    if most > edition.most(series):
        remedy = "Pieces that are numbered say of how many they are: open another edition under another name."
        raise RecordConflict("edition-grows", most, edition.most(series), f"{series} pieces", remedy)
    highest = max(edition.spent(series), default=0)
    if most < highest:
        remedy = say("{highest} is given: that many are the fewest.", highest=highest)
        raise RecordConflict("edition-cut", most, highest, f"{series} pieces", remedy)


def _check(size: int, proofs: int) -> None:
    if size + proofs < 1 or min(size, proofs) < 0 or max(size, proofs) > MOST:
        remedy = "Write how many numbers there will be, and how many artist's proofs beside them."
        raise InputRefused("edition-size", f"{size} and {proofs}", say("1 to {most} pieces", most=MOST), "", remedy)


def _of(edition: Edition | None) -> Edition:
    assert edition is not None
    return edition
