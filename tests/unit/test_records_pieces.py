"""Pieces as records: taken in with their files, changed, planned, put away, laid out again."""

from __future__ import annotations

import io
import os
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from job_plan_sample import sample_plan
from original_files import box, stl
from photo_files import encoded, picture
from test_records_files import located

from moldwright.archive.read import opened_archive
from moldwright.archive.restore import restore
from moldwright.archive.save import export
from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.any_events import Undone
from moldwright.log.event import About
from moldwright.log.ids import EditionId, FileHash, MoldId, PieceId, PlanId, RunId, SubjectId
from moldwright.log.piece_events import CommissionChanged, PieceFile, PiecePlanned, PieceTakenIn
from moldwright.log.run_events import Ended, MoldRegistered, Replanned, Started
from moldwright.plan.json_text import plan_to_json
from moldwright.records.check.finding import Amiss
from moldwright.records.check.whole import checked
from moldwright.records.clock import BenchClock
from moldwright.records.files.check import file_findings
from moldwright.records.files.keep import attach, keep_file
from moldwright.records.files.kept import place_of
from moldwright.records.files.scans import keep_scan
from moldwright.records.find import find
from moldwright.records.pieces.folder import lay_out
from moldwright.records.pieces.from_files import keep_named
from moldwright.records.pieces.listing import PieceKnown, PieceStage, piece_meant, piece_story, pieces
from moldwright.records.pieces.names import check_names, is_harmless
from moldwright.records.pieces.write import change, piece_known, planned, put_away, take_back, take_in
from moldwright.records.shop import Shop, open_shop
from moldwright.records.strike import strike_out

SCAN = stl(*box())
COMMISSION = '[original]\nfile = "stag.stl"\nheight = "160 mm"\n\n[edition]\ncount = 24\n'
PLAN = plan_to_json(sample_plan())
CLOCK = BenchClock("tablet 1", "Kim")


def scan(shop: Shop, data: bytes = SCAN) -> FileHash:
    return keep_scan(shop, io.BytesIO(data), "stag.stl")


def taken_in(shop: Shop, **told: str) -> PieceId:
    return take_in(shop, CLOCK, COMMISSION, {"stag.stl": scan(shop)}, **told)


def only(shop: Shop, away: bool = False) -> PieceKnown:
    (known,) = pieces(shop, away)
    return known


def test_a_piece_is_taken_in_and_listed(shop: Shop) -> None:
    id_ = taken_in(shop, whom=" A. Customer ", due=" 2026-12-24 ")
    known = only(shop)
    assert (known.piece.id, known.piece.name, known.piece.whom, known.piece.due) == (
        id_, "stag", "A. Customer", "2026-12-24",
    )  # fmt: skip
    assert (known.count, known.stage, known.runs, known.picture) == (24, PieceStage.TAKEN_IN, (), None)
    assert known.piece.commission == COMMISSION
    assert file_findings(shop) == ()
    for written in (id_, id_[-8:].upper(), "STAG", f"urn:uuid:{id_}"):
        assert piece_meant(shop, written) == id_
    assert find(shop, About.PIECE, id_[-8:]) == id_


@pytest.mark.parametrize(
    ("commission", "name", "told", "code"),
    [
        (COMMISSION.replace("stag.stl", "other.stl"), "stag.stl", {}, "piece-file-missing"),
        (COMMISSION, "../stag.stl", {}, "file-name-unusable"),
        (COMMISSION, "stag.stl", {"due": "soon"}, "day-unclear"),
        (COMMISSION, "stag.stl", {"whom": "two\nlines"}, "text-unusable"),
        (COMMISSION, "stag.stl", {"name": "\x1b[2J"}, "text-unusable"),
        ("[original]\nheigth = 3", "stag.stl", {}, "unknown-key"),
        ('[original]\nphotos = "stag.stl"', "stag.stl", {}, "piece-file-missing"),
        ('[original]\nphotos = "stag"', "stag/left.jpg", {}, "piece-file-other"),
        (COMMISSION.replace("stag.stl", "stag.ply"), "stag.ply", {}, "piece-file-other"),
    ],
)
def test_what_does_not_hold_together_is_refused_and_nothing_is_written(
    shop: Shop, commission: str, name: str, told: dict[str, str], code: str
) -> None:
    with pytest.raises(InputRefused, match=code) as caught:
        take_in(shop, CLOCK, commission, {name: scan(shop)}, **told)
    assert caught.value.remedy
    assert shop.events_about(About.PIECE) == ()


def test_a_file_must_be_kept_and_be_what_it_is_named_for(shop: Shop) -> None:
    with pytest.raises(InputRefused, match="file-not-kept-yet"):
        take_in(shop, CLOCK, COMMISSION, {"stag.stl": FileHash("ab" * 32)})
    text = keep_file(shop, b"solid as it says", "stag.stl")
    with pytest.raises(InputRefused, match="piece-file-other"):
        take_in(shop, CLOCK, COMMISSION, {"stag.stl": text})


def run_of(shop: Shop, plan: PlanId, **more: object) -> RunId:
    run = RunId(SubjectId(CLOCK.new_id()))
    shop.append([CLOCK.event(About.RUN, run, Started(plan, "stag", 24, **more))])  # type: ignore[arg-type]
    return run


def test_how_far_it_is_follows_its_plans_and_runs(shop: Shop) -> None:
    id_ = taken_in(shop)
    event = planned(shop, CLOCK, id_, PLAN, "0.1.0")
    assert isinstance(event.body, PiecePlanned)
    plan, asked = event.body.plan, piece_known(shop, id_).asked
    assert (event.body.asked, event.body.version) == (asked, "0.1.0")
    assert shop.plan_text(plan) == PLAN
    assert only(shop).stage is PieceStage.PLANNED
    mold, edition = MoldId(SubjectId(CLOCK.new_id())), EditionId(SubjectId(CLOCK.new_id()))
    first = run_of(shop, plan, edition=edition)
    run_of(shop, PlanId("0" * 64))
    other = run_of(shop, PlanId("1" * 64))
    shop.append([CLOCK.event(About.RUN, other, Replanned(plan)), CLOCK.event(About.RUN, first, MoldRegistered(mold))])
    known = only(shop)
    assert [run.id for run in known.runs] == [first, other]
    assert (known.stage, known.molds, known.editions) == (PieceStage.UNDER_WAY, (mold,), (edition,))
    shop.append(CLOCK.event(About.RUN, run, Ended()) for run in (first, other))
    assert only(shop).stage is PieceStage.DONE
    start = next(each for each in shop.events_of(first) if isinstance(each.body, Started))
    shop.append(
        [
            CLOCK.event(About.RUN, first, Undone(start.id)),
            CLOCK.event(About.RUN, other, Undone(shop.events_of(other)[0].id)),
        ]
    )
    assert only(shop).stage is PieceStage.PLANNED


def test_what_is_asked_for_anew_stands_till_it_is_struck_out(shop: Shop) -> None:
    id_ = taken_in(shop)
    planned(shop, CLOCK, id_, PLAN, "0.1.0")
    event = change(shop, CLOCK, id_, COMMISSION.replace("24", "7"), {"stag.stl": scan(shop)}, "fewer")
    known = only(shop)
    assert (known.count, known.piece.asked, known.piece.changed_since) == (7, event.id, True)
    strike_out(shop, CLOCK, About.PIECE, event.id)
    assert (only(shop).count, only(shop).piece.changed_since) == (24, False)
    assert len(piece_story(shop, id_).gone) == 1


def test_a_piece_is_put_away_and_taken_back(shop: Shop) -> None:
    id_ = taken_in(shop)
    put_away(shop, CLOCK, id_, "collected")
    assert pieces(shop) == ()
    assert (only(shop, away=True).stage, only(shop, away=True).piece.put_away) == (PieceStage.PUT_AWAY, "collected")
    with pytest.raises(InputRefused, match="piece-away"):
        put_away(shop, CLOCK, id_)
    take_back(shop, CLOCK, id_)
    with pytest.raises(InputRefused, match="piece-here"):
        take_back(shop, CLOCK, id_)
    assert only(shop).stage is PieceStage.TAKEN_IN


def test_a_piece_that_was_never_taken_in_is_none(shop: Shop) -> None:
    id_ = taken_in(shop)
    strike_out(shop, CLOCK, About.PIECE, shop.events_of(id_)[0].id)
    assert pieces(shop, away=True) == ()
    for act in (lambda: put_away(shop, CLOCK, id_), lambda: piece_story(shop, id_)):
        with pytest.raises(InputRefused, match="not-kept"):
            act()


def test_the_soonest_promised_comes_first_then_the_newest(shop: Shop) -> None:
    now = iter(range(1_800_000_000_000, 1_800_000_100_000, 1000))
    clock = BenchClock("one", now=lambda: next(now))
    for name, due in (("old", ""), ("late", "2027-01-01"), ("soon", "2026-12-01"), ("new", "")):
        take_in(shop, clock, COMMISSION, {"stag.stl": scan(shop)}, name, due=due)
    assert [each.piece.name for each in pieces(shop)] == ["soon", "late", "new", "old"]


def test_two_of_one_name_are_told_apart_by_their_codes(shop: Shop) -> None:
    taken_in(shop, name="Stag")
    taken_in(shop, name="stag")
    with pytest.raises(InputRefused, match="code-of-several"):
        piece_meant(shop, "stag")


def test_its_picture_is_the_photo_laid_to_it_last_else_its_own_first(shop: Shop) -> None:
    files = {f"photos/{n}.jpg": keep_file(shop, encoded(picture(160 + n, 120)), f"{n}.jpg") for n in (2, 1)}
    files["photos/1.mask.png"] = keep_file(shop, encoded(picture(), "PNG"), "1.mask.png")
    id_ = take_in(shop, CLOCK, '[original]\nphotos = "photos"\n', files, "otter")
    assert only(shop).picture == files["photos/1.jpg"]
    later, paper = keep_file(shop, encoded(picture(200, 100)), "a.jpg"), keep_file(shop, b"a note", "a.txt")
    for file in (later, paper):
        attach(shop, CLOCK, About.PIECE, id_, file)
    assert only(shop).picture == later


# laid out


def test_a_piece_is_laid_out_as_it_came(shop: Shop, tmp_path: Path) -> None:
    home = tmp_path / "customer" / "orders"
    (home / "own sheets").mkdir(parents=True)
    (home.parent / "scans").mkdir()
    (home.parent / "scans" / "stag.stl").write_bytes(SCAN)
    (home / "photos").mkdir()
    (home / "photos" / "left.jpg").write_bytes(encoded(picture(), exif=located(6)))
    (home / "photos" / "left.mask.png").write_bytes(encoded(picture(), "PNG"))
    (home / "photos" / "list.txt").write_text("no photo")
    (home / "own sheets" / "resin.toml").write_text("# ours\n")
    (home / "steps.toml").write_text("# steps\n")
    text = (
        '# ../scans/stag.stl is the big one\n[original]\nfile = "../scans/stag.stl" # "../scans/stag.stl"\n'
        'photos = \'./photos\'\nheight = "160 mm"\n[shop]\nsheets = "own sheets"\nsteps = "steps.toml"\n'
    )
    asked, files = keep_named(shop, text, home)
    assert asked == text.replace('file = "../scans/stag.stl"', 'file = "stag.stl"').replace("'./photos'", '"photos"')
    assert sorted(files) == [
        "own sheets/resin.toml", "photos/left.jpg", "photos/left.mask.png", "stag.stl", "steps.toml",
    ]  # fmt: skip
    id_ = take_in(shop, CLOCK, asked, files, "Stag")
    for linked in (False, True):
        folder = tmp_path / f"out-{linked}"
        assert lay_out(shop, piece_known(shop, id_), folder, linked).read_text() == asked
        assert (folder / "stag.stl").read_bytes() == SCAN
        assert os.path.samefile(folder / "stag.stl", place_of(shop.files, files["stag.stl"])) is linked
        again, same = keep_named(shop, asked, folder)
        assert (again, same) == (asked, files)
    assert sorted(os.listdir(tmp_path)) == sorted({"customer", "out-False", "out-True", *_of_shop(tmp_path)})


def _of_shop(folder: Path) -> set[str]:
    return {name for name in os.listdir(folder) if name.startswith("shop.")}


def test_names_that_cannot_be_made_plain_are_refused(shop: Shop, tmp_path: Path) -> None:
    (tmp_path / "stag.stl").write_bytes(SCAN)
    home = tmp_path / "orders"
    home.mkdir()
    with pytest.raises(InputRefused, match="commission-names-unclear"):
        keep_named(shop, COMMISSION.replace('"stag.stl"', '"\\u002e\\u002e/stag.stl"'), home)
    with pytest.raises(InputRefused, match="file-missing"):
        keep_named(shop, COMMISSION.replace("stag.stl", "../nowhere.stl"), home)


HOSTILE = [
    "", ".", "..", "../a.stl", "/etc/passwd", "a/../b.stl", "a//b.stl", "a/", "/a", "a\\b.stl", "..\\b.stl", "C:a.stl",
    ".hidden", "a/.ssh", "a\0.stl", "a\n.stl", "a\x1b[2J.stl", "\u202egpj.stl", "a.stl ", "a.stl.", " a.stl", "-rf",
    "con", "NUL.stl", "com1.stl", "a?.stl", "a*.stl", "a|b", "a<b>", 'a"b', "x" * 121, "\udcff.stl", "a/b/c/d/e.stl",
    "é" * 120 + "青" * 100, "commission.toml", "Commission.TOML", "commission.toml/a",
]  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_name_is_refused_where_it_comes_in_and_where_it_would_go_out(
    shop: Shop, tmp_path: Path, name: str
) -> None:
    """The event is one that a stranger's bench or archive wrote: none of ours does."""
    with pytest.raises(InputRefused, match="file-name-unusable"):
        check_names([name])
    file = scan(shop)
    piece = PieceId(SubjectId(CLOCK.new_id()))
    body = PieceTakenIn("stag", '[original]\nweight = "3 kg"\n', (PieceFile(name, file),))
    try:
        shop.append([CLOCK.event(About.PIECE, piece, body)])
    except InputRefused:
        return  # what is no text at all is no event either
    folder = tmp_path / "in" / "out"
    folder.parent.mkdir()
    with pytest.raises(InputRefused, match="file-name-unusable"):
        lay_out(shop, piece_known(shop, piece), folder)
    assert os.listdir(folder.parent) == []


def test_names_that_are_one_on_some_systems_are_refused() -> None:
    for names in (["a.stl", "A.STL"], ["a", "a/b"], ["a/b", "a"], ["é.stl", "e\u0301.stl"], ["A/b", "a/B"]):
        with pytest.raises(InputRefused, match="file-name-unusable"):
            check_names(names)
    with pytest.raises(InputRefused, match="too-many-files"):
        check_names(f"{n}.jpg" for n in range(501))
    assert is_harmless("photos/Größe 青 (1)-2.jpg")


@pytest.mark.parametrize(
    "path", ["/etc/passwd", "../../etc/passwd", "stag.stl/../../a", "other.stl", "C:\\a.stl", ".."]
)
@pytest.mark.parametrize("key", ["original.file", "original.photos", "shop.sheets", "shop.steps"])
def test_a_stranger_commission_cannot_name_what_is_outside(shop: Shop, tmp_path: Path, key: str, path: str) -> None:
    table, _, name = key.partition(".")
    rest = "" if table == "original" else '[original]\nweight = "3 kg"\n'
    text = f"{rest}[{table}]\n{name} = '{path}'\n"
    piece = PieceId(SubjectId(CLOCK.new_id()))
    body = PieceTakenIn("stag", text, (PieceFile("stag.stl", scan(shop)),))
    shop.append([CLOCK.event(About.PIECE, piece, body)])
    with pytest.raises(InputRefused, match="commission-leaves-folder"):
        lay_out(shop, piece_known(shop, piece), tmp_path / "out")
    assert not (tmp_path / "out").exists()


def test_a_folder_that_holds_something_is_left_alone(shop: Shop, tmp_path: Path) -> None:
    piece = piece_known(shop, taken_in(shop))
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "mine").write_text("mine")
    (tmp_path / "empty").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "empty")
    (tmp_path / "file").write_text("mine")
    for name in ("full", "link", "file"):
        with pytest.raises(InputRefused, match="folder-not-empty"):
            lay_out(shop, piece, tmp_path / name)
    with pytest.raises(InputRefused, match="folder-unwritable"):
        lay_out(shop, piece, tmp_path / "nowhere" / "out")
    lay_out(shop, piece, tmp_path / "empty")
    assert sorted(os.listdir(tmp_path / "empty")) == ["commission.toml", "stag.stl"]
    assert os.listdir(tmp_path / "full") == ["mine"]


@pytest.mark.parametrize(
    ("harm", "code", "amiss"),
    [
        (lambda path: path.unlink(), "file-missing", Amiss.FILE_MISSING),
        (lambda path: path.write_bytes(SCAN[:-1] + b"?"), "file-damaged", Amiss.FILE_DAMAGED),
    ],
)
@pytest.mark.parametrize("linked", [False, True])
def test_a_lost_or_damaged_file_is_told_and_all_else_goes_on(
    shop: Shop,
    shop_at: str,
    tmp_path: Path,
    harm: Callable[[Path], object],
    code: str,
    amiss: Amiss,
    linked: bool,
) -> None:
    id_ = taken_in(shop)
    (file,) = piece_known(shop, id_).files
    harm(place_of(shop.files, file.file))
    with pytest.raises(RecordConflict, match=code) as caught:
        lay_out(shop, piece_known(shop, id_), tmp_path / "out", linked)
    assert "stag.stl" in str(caught.value.actual)
    assert not (tmp_path / "out").exists()
    assert [each.kind for each in checked(shop_at, shop.files).findings] == [amiss]
    assert only(shop).count == 24
    assert scan(shop) == file.file
    lay_out(shop, piece_known(shop, id_), tmp_path / "out", linked)


def test_a_plan_that_is_not_kept_is_told(shop: Shop, shop_at: str) -> None:
    id_ = taken_in(shop)
    event = CLOCK.event(About.PIECE, id_, PiecePlanned(PlanId("0" * 64), piece_known(shop, id_).asked))
    shop.append([event])
    (found,) = checked(shop_at, shop.files).findings
    assert (found.kind, found.which) == (Amiss.PLAN_MISSING, (f"plan 000000000000 of piece {id_}",))
    assert only(shop).stage is PieceStage.PLANNED


def test_a_commission_of_another_version_is_listed_without_a_count(shop: Shop, tmp_path: Path) -> None:
    id_ = taken_in(shop)
    shop.append([CLOCK.event(About.PIECE, id_, CommissionChanged("[original]\nhologram = 3\n"))])
    assert (only(shop).count, only(shop).stage) == (None, PieceStage.TAKEN_IN)


def test_pieces_go_out_and_come_back_with_the_archive(shop: Shop, tmp_path: Path) -> None:
    id_ = taken_in(shop, whom="A. Customer")
    planned(shop, CLOCK, id_, PLAN, "0.1.0")
    export(shop, tmp_path / "a.zip")
    with closing(open_shop(str(tmp_path / "other.db"))) as other:
        with opened_archive(tmp_path / "a.zip") as archive:
            restore(other, archive)
        assert pieces(other) == pieces(shop)
        assert piece_story(other, id_) == piece_story(shop, id_)
        assert (
            lay_out(other, piece_known(other, id_), tmp_path / "out").parent.joinpath("stag.stl").read_bytes() == SCAN
        )
        export(other, tmp_path / "b.zip")
    assert (tmp_path / "a.zip").read_bytes() == (tmp_path / "b.zip").read_bytes()
