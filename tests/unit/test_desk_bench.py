"""`moldwright bench`, as a maker and as a script type it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from conftest import Job
from typer.testing import CliRunner, Result

from moldwright.desk.main import app
from moldwright.desk.plan_runs import tell_runs
from moldwright.log.event import About
from moldwright.log.json_text import body_text, kind_of
from moldwright.log.run_events import CupRef, Done, Weighed
from moldwright.plan.mixes import MixFor, MixKind, PartKind
from moldwright.records.clock import BenchClock
from moldwright.records.shop import open_shop
from moldwright.sheets.plan_text import plan_text


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, small_job: Job) -> Path:
    """A shop and a plan's folder, as far as the bench looks at it."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("MOLDWRIGHT_SHOP", "shop.db")
    monkeypatch.setenv("MOLDWRIGHT_BENCH", "tablet 1")
    (tmp_path / "plan").mkdir()
    (tmp_path / "plan" / "plan.json").write_text(plan_text(small_job.planned.plan), "utf-8")
    return tmp_path


def bench(*typed: str, lines: str = "") -> Result:
    return CliRunner().invoke(app, ["bench", *typed], input=lines)


def as_json(*typed: str) -> dict[str, object]:
    result = bench(*typed, "--json")
    assert result.exit_code == 0, result.stderr
    told = json.loads(result.stdout)
    assert isinstance(told, dict)
    return told


def test_a_run_is_started_left_and_gone_on_with(here: Path) -> None:
    first = bench("plan", "--casts", "1", lines="d 1\nn the client came by\n")
    assert first.exit_code == 0
    assert first.stdout.startswith("Run ")
    assert "kept: step 1 is done." in first.stdout
    assert first.stdout.endswith("Left the bench. All that was kept is kept; the run goes on where it is.\n")
    again = bench("plan", lines="q\n")
    assert "is started" not in again.stdout
    assert "\n2. " in again.stdout
    rows = as_json("--list")["runs"]
    assert isinstance(rows, list)
    assert [row["done"] for row in rows] == [1]


def test_a_line_from_the_command_line_does_what_it_does_at_the_bench(here: Path) -> None:
    run = as_json("plan", "--casts", "1")
    told = as_json(str(run["code"]), "--log", "d 1", "--log", "t 24.5 C")
    assert [event["kind"] for event in told["events"]] == ["done", "shop-air"]  # type: ignore[attr-defined]
    refused = bench(str(run["code"]), "--log", "d 999", "--json")
    assert (refused.exit_code, json.loads(refused.stderr)["error"]["code"]) == (3, "act-not-in-plan")
    event = told["events"][0]["id"]  # type: ignore[index]
    struck = as_json(str(run["code"]), "--strike", event, "--why", "too soon")
    assert struck["events"][0]["body"]["event"] == event  # type: ignore[index]
    state = as_json(str(run["code"]))
    assert state["acts"][0]["state"] == "struck out"  # type: ignore[index]
    assert state["next"]["act"]["number"] == 1  # type: ignore[index]


def test_of_several_runs_one_must_be_named_where_nobody_can_be_asked(here: Path) -> None:
    one, two = as_json("plan", "--new"), as_json("plan", "--new")
    assert one["run"] != two["run"]
    refused = bench("plan", "--show")
    assert refused.exit_code == 3
    assert "run-of-several" in refused.stderr
    ended = bench(str(two["code"]), "--end", "--why", "not wanted")
    assert ended.stdout == "The run is over.\n"
    assert as_json("plan")["run"] == one["run"]


@pytest.mark.parametrize(
    "asked", [["--show"], ["--end"], ["--strike", "265E-72FD"], ["--print", "out"], ["--replan", "plan"]]
)
def test_who_only_looks_prints_or_ends_starts_no_run(here: Path, asked: list[str]) -> None:
    for more in ([], ["--json"]):
        refused = bench("plan", *asked, *more)
        assert refused.exit_code == 3
        assert "no run of this plan is under way" in refused.stderr
    assert as_json("--list")["runs"] == []
    assert not (here / "out").exists()


def test_entries_of_another_bench_are_taken_in_once(here: Path) -> None:
    run = as_json("plan", "--casts", "1")
    other = BenchClock("tablet 2", "Lee")
    event = other.event(About.RUN, run["run"], Done(run["acts"][0]["step"]))  # type: ignore[index, arg-type]
    tree = {"id": event.id, "about": "run", "subject": event.subject, "kind": kind_of(event.body)}
    tree |= {"at_ms": event.at_ms, "bench": "tablet 2", "by": "Lee", "body": json.loads(body_text(event.body))}
    (here / "lines").write_text(json.dumps(tree) + "\n\n" + json.dumps(tree) + "\n", "utf-8")
    assert as_json("--events", "lines") == {"new": [event.id], "known": [event.id]}
    assert as_json("--events", "lines")["new"] == []
    assert as_json("plan")["acts"][0]["state"] == "done"  # type: ignore[index]
    for spoiled in ({**tree, "id": "17"}, {**tree, "body": {"step": 3}}, {**tree, "about": "soup"}, ["no object"]):
        (here / "bad").write_text(json.dumps(tree) + "\n" + json.dumps(spoiled) + "\n", "utf-8")
        refused = bench("--events", "bad")
        assert (refused.exit_code, "line 2" in refused.stderr) == (3, True)
    shop = open_shop("shop.db")
    assert len(shop.events_of(run["run"])) == 2  # type: ignore[arg-type]
    shop.close()


def test_the_papers_form_is_written_and_read_in(here: Path) -> None:
    bench("plan", "--casts", "0", lines="")
    assert bench("plan", "--paper-form", "form.txt").stdout == "form.txt is written.\n"
    assert bench("plan", "--paper-form", "form.txt").exit_code == 3
    text = (here / "form.txt").read_text("utf-8").replace("[1 tick] 1", "[1 tick] x").replace("done: \n", "done: x\n")
    (here / "form.txt").write_text(text, "utf-8")
    told = bench("plan", "--from-paper", "--form", "form.txt").stdout
    assert told.endswith("0 were there already, 0 are struck out.\n")
    assert "0 entries are new" in bench("plan", "--from-paper", "--form", "form.txt").stdout
    (here / "form.txt").write_text(text + "[9999 tick] none: x\n", "utf-8")
    refused = bench("plan", "--from-paper", "--form", "form.txt")
    assert refused.exit_code == 3
    assert f"line {len(text.splitlines()) + 1}" in refused.stderr


def test_the_sheets_are_typed_in_row_by_row(here: Path) -> None:
    bench("plan", "--casts", "0", lines="")
    told = bench("plan", "--from-paper", lines="2026-11-02\ndone to 3\nq\n").stdout
    assert "3 steps are ticked." in told
    assert told.endswith("3 entries are new. 3 lines, 23 keys.\n")


def test_a_plan_made_anew_is_taken_over_with_what_is_done_kept(here: Path, small_job: Job) -> None:
    run = as_json("plan", "--casts", "1")
    as_json(str(run["code"]), "--log", "d 1")
    tree = json.loads((here / "plan" / "plan.json").read_text("utf-8"))
    tree["mixes"][0]["parts"][0]["mass_g"] += 1.5
    tree["temperature_c"] = 20.0
    (here / "new").mkdir()
    (here / "new" / "plan.json").write_text(json.dumps(tree), "utf-8")
    told = bench(str(run["code"]), "--replan", "new").stdout.splitlines()
    assert told[0] == "Kept: 1 steps that are done, in hand or left out."
    assert "Shop: 22 °C -> 20 °C." in told
    assert any(line.startswith("coat 1: B ") and " -> " in line for line in told)
    assert "nothing changes" in bench(str(run["code"]), "--replan", "new").stdout
    assert as_json("new")["run"] == run["run"]
    shown = bench("plan", "--show")
    assert (shown.exit_code, f"bench {run['code']} --show" in shown.stderr) == (3, True)
    other = bench("plan", lines="q\n")
    assert f"{run['code']} of the same piece goes by another plan" in other.stdout.replace("Run ", "")


def test_planning_anew_tells_the_runs_that_go_by_the_earlier_plan(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run = as_json("plan", "--casts", "1")
    earlier = (here / "plan" / "plan.json").read_text("utf-8")
    tell_runs(earlier, here / "plan")
    assert capsys.readouterr().err == "", "the very same plan"
    (here / "plan" / "plan.json").write_text(earlier + "\n", "utf-8")
    tell_runs(earlier, Path("plan"))
    told = f"Run {run['code']} goes on by the earlier plan, 0 steps done. To let it go on by this one: "
    assert capsys.readouterr().err == f"{told}moldwright bench {run['code']} --replan plan\n"
    tell_runs("", here / "plan")
    (here / "shop.db").write_text("no store", "utf-8")
    tell_runs(earlier, here / "plan")
    (here / "shop.db").unlink()
    tell_runs(earlier, here / "plan")
    assert capsys.readouterr().err == ""
    assert not (here / "shop.db").exists()


def test_what_a_rest_still_covers_is_told_coat_by_coat(here: Path, small_job: Job) -> None:
    """Of rubber's B there is what coat 1 takes and 5 g more: coat 1 is whole, coat 2 lacks the rest of its own B."""
    plan = small_job.planned.plan
    first, second = (plan.mixes_for(MixFor(MixKind.COAT, coat.id)) for coat in plan.glove.coats[:2])
    takes = [sum(p.mass_g for mix in cups for p in mix.parts if p.kind is PartKind.B) for cups in (first, second)]
    run = str(as_json("plan", "--casts", "1")["code"])
    told = bench(run, "--left", f"B={takes[0] + 5.0:.1f} g").stdout
    assert "Coat 1: whole." in told
    assert f"Lacking: {takes[1] - 5.0:.1f} g of B." in told
    covered = as_json(run, "--left", f"B={takes[0] + 5.0:.1f} g")["covered"]
    assert [rest["mass_g"] for rest in covered["rests"]] == [pytest.approx(takes[0] + 5.0, abs=0.05)]  # type: ignore[index]
    assert "all over" in told
    assert "cast" not in told
    for typed, code in (("Z=3 g", "stuff-not-needed"), ("B", "rest-unclear")):
        refused = bench(run, "--left", typed, "--json")
        assert (refused.exit_code, json.loads(refused.stderr)["error"]["code"]) == (3, code)


def test_a_scale_that_is_off_tells_what_it_weighed(here: Path) -> None:
    """100 g read as 98.0: every gram shown is 100/98 of one; parts of one scale keep their ratio."""
    run = str(as_json("plan", "--casts", "1")["code"])
    steps = [act["number"] for act in as_json(run)["acts"] if act["step"] == "coat-1-mix"]  # type: ignore[attr-defined]
    told = bench(run, lines=f"/{steps[0]}\n\n\n\n\nk 100 98\nq\n").stdout
    assert "It shows 2.0 % too little." in told
    assert "one scale, one factor: its ratio holds" in told


def test_a_mold_on_the_shelf_is_meant_by_its_name_too(here: Path) -> None:
    added = CliRunner().invoke(app, ["mold", "add", "otter glove", "--json"])
    assert added.exit_code == 0, added.output
    run = as_json("plan", "--casts", "1", "--mold", "otter glove")
    assert run["frame"]["started"]["mold"] == json.loads(added.stdout)["id"]  # type: ignore[index]


def test_a_mold_that_is_not_made_enters_no_register(here: Path) -> None:
    run = str(as_json("plan", "--casts", "1")["code"])
    refused = bench(run, "--log", "m", "--json")
    assert (refused.exit_code, json.loads(refused.stderr)["error"]["code"]) == (3, "mold-not-made")


def test_a_plan_under_way_is_counted_once(here: Path) -> None:
    """What is bought for a plan is the same before its run is begun and after, as long as nothing is weighed."""
    order = ["lot", "order", "--for", "plan"]
    before = json.loads(CliRunner().invoke(app, [*order, "--json"]).stdout)
    bench("plan", "--log", "n begun")
    begun = json.loads(CliRunner().invoke(app, [*order, "--json"]).stdout)
    assert before["buy"] == begun["buy"] != []
    assert "counted once" in CliRunner().invoke(app, order).stdout


def test_a_cup_begun_with_the_wrong_part_is_told_what_to_do(here: Path, small_job: Job) -> None:
    """The second of the parts that react went in before the pigment, the first is not in: there is no hurry."""
    mix = small_job.planned.plan.mixes_for(MixFor(MixKind.COAT, small_job.planned.plan.glove.coats[0].id))[0]
    assert mix.starter is not None
    run = as_json("plan", "--casts", "1")
    step = next(act["number"] for act in run["acts"] if act["step"] == "coat-1-mix")  # type: ignore[attr-defined]
    trace = next(part for part in mix.parts if part.kind is PartKind.PIGMENT)
    assert mix.parts.index(trace) < [part.kind for part in mix.parts].index(mix.starter)
    mass = next(part.mass_g for part in mix.parts if part.kind is mix.starter)
    shop, clock = open_shop("shop.db"), BenchClock("tablet 2")
    bodies = (Weighed(CupRef(mix.id), mix.starter, mass, mass), Weighed(CupRef(mix.id), trace.kind, 0.1, 0.1))
    at = clock.now()
    shop.append(clock.event(About.RUN, run["run"], body, at + n) for n, body in enumerate(bodies))  # type: ignore[arg-type]
    shop.close()
    told = bench(str(run["code"]), lines=f"/{step}\nq\n").stdout
    assert "Out of order, but nothing reacts yet" in told
    assert "It reacts already" not in told
