"""Long work: its queue, its end by itself and by force, what a desk that was killed leaves, what is swept.

Every job is a real one: a volume alone is reckoned in a second, a tape is planned for many.
"""

from __future__ import annotations

import errno
import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Event

import pytest

from moldwright.disk.lock import locked
from moldwright.errors import InputRefused, RecordConflict
from moldwright.web.long_work.files import ASKED, JOB, LOCK, MADE, PROCESS
from moldwright.web.long_work.job import JobId, LongJob, WorkKind, WorkState
from moldwright.web.long_work.queue import KEPT_MS, WorkQueue
from moldwright.web.long_work.settle import put

QUICK = '[original]\ndisplaced = "1.90 l"\nheight = "190 mm"\n'
LONG = """[original]
name = "Post"
[original.tape]
levels = [
  { at = "0 mm", girth = "310 mm" }, { at = "60 mm", girth = "296 mm" },
  { at = "110 mm", girth = "250 mm" }, { at = "150 mm", girth = "120 mm" },
]
"""
SOON_S = 60.0


@pytest.fixture
def queue(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[WorkQueue]:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    found = WorkQueue(tmp_path / "work")
    found.open()
    yield found
    found.close()


def asked(queue: WorkQueue, text: str, title: str = "Post") -> LongJob:
    def lay_out(folder: Path) -> None:
        folder.mkdir()
        (folder / "commission.toml").write_text(text)

    return queue.ask(WorkKind.PLAN, title, "piece", {}, lay_out)


def until(queue: WorkQueue, id_: JobId, wanted: Callable[[LongJob], bool]) -> LongJob:
    end = time.monotonic() + SOON_S
    while not wanted(job := queue.get(id_)):
        assert time.monotonic() < end, job
        time.sleep(0.02)
    return job


def over(queue: WorkQueue, id_: JobId) -> LongJob:
    return until(queue, id_, lambda job: job.state.ended)


def at_work(queue: WorkQueue, id_: JobId) -> LongJob:
    """Its process has said something."""
    return until(queue, id_, lambda job: job.state is WorkState.WORKING and queue.files.how_far(id_).stage != "")


def test_work_is_done_in_its_own_process_and_its_end_stays(queue: WorkQueue, tmp_path: Path) -> None:
    job = over(queue, asked(queue, QUICK).id)
    assert (job.state, job.refused) == (WorkState.DONE, None)
    made = queue.files.made(job.id) / "quantities.json"
    assert json.loads(made.read_text())["kind"] == "quantities only"
    again = WorkQueue(tmp_path / "work")
    assert again.get(job.id) == job


def test_what_it_refuses_is_told_as_the_command_line_tells_it(queue: WorkQueue) -> None:
    job = over(queue, asked(queue, QUICK + '[mold]\nrubber = "no such rubber"\n').id)
    assert job.state is WorkState.REFUSED
    assert job.refused is not None
    assert (job.refused["family"], job.refused["code"]) == ("InputRefused", "unknown-material")
    assert not queue.files.made(job.id).exists()


def test_one_plan_is_made_at_a_time_in_the_order_in_which_they_were_asked_for(queue: WorkQueue) -> None:
    first, *others = (asked(queue, text, title) for text, title in ((LONG, "a"), (QUICK, "b"), (QUICK, "c")))
    at_work(queue, first.id)
    assert [queue.get(job.id).state for job in others] == [WorkState.WAITING] * 2
    assert [queue.before(queue.get(job.id)) for job in others] == [1, 2]
    queue.stop(first.id)
    ended = [over(queue, job.id) for job in others]
    assert [job.state for job in ended] == [WorkState.DONE] * 2
    assert ended[0].ended_ms is not None
    assert ended[1].started_ms is not None
    assert ended[0].ended_ms <= ended[1].started_ms


def test_what_is_stopped_ends_within_a_second_and_leaves_nothing_half_made(queue: WorkQueue) -> None:
    job = asked(queue, LONG)
    at_work(queue, job.id)
    began = time.monotonic()
    stopped = queue.stop(job.id)
    took_s = time.monotonic() - began
    assert stopped.state is WorkState.STOPPED
    assert took_s < 1.0
    assert {entry.name for entry in queue.files.of(job.id).iterdir()} <= {JOB, ASKED, LOCK}


def test_what_still_waits_is_stopped_before_it_begins(queue: WorkQueue) -> None:
    first, second = asked(queue, LONG), asked(queue, QUICK)
    assert queue.stop(second.id).state is WorkState.STOPPED
    queue.stop(first.id)
    assert queue.get(second.id).started_ms is None


def process_of(queue: WorkQueue, job: LongJob) -> int:
    """The process that works in a job's folder, as the system lists it."""
    place = str(queue.files.of(job.id) / PROCESS)
    listed = subprocess.run(["ps", "-eww", "-o", "pid,args"], capture_output=True, text=True, check=True).stdout
    (line,) = (line for line in listed.splitlines() if place in line)
    return int(line.split()[0])


def test_a_process_that_is_killed_is_told_as_that_and_can_be_tried_again(queue: WorkQueue) -> None:
    job = asked(queue, LONG)
    at_work(queue, job.id)
    os.kill(process_of(queue, job), signal.SIGKILL)
    broken = over(queue, job.id)
    assert broken.state is WorkState.BROKEN
    assert broken.refused is not None
    assert (broken.refused["code"], broken.refused["actual"]) == ("ended-from-outside", "SIGKILL")
    assert not (queue.files.of(job.id) / MADE).exists()
    (queue.files.of(job.id) / ASKED / "commission.toml").write_text(QUICK)
    queue.retry(job.id)
    assert over(queue, job.id).state is WorkState.DONE


def test_what_is_under_way_or_done_is_not_tried_again(queue: WorkQueue) -> None:
    job = asked(queue, QUICK)
    over(queue, job.id)
    with pytest.raises(InputRefused, match="work-not-over"):
        queue.retry(job.id)


DESK = """
import sys, time
from pathlib import Path
from moldwright.web.long_work.job import WorkKind
from moldwright.web.long_work.queue import WorkQueue
queue = WorkQueue(Path(sys.argv[1]))
queue.open()
def lay_out(folder):
    folder.mkdir()
    (folder / "commission.toml").write_text(sys.argv[2])
for title in ("under way", "waits"):
    print(queue.ask(WorkKind.PLAN, title, "piece", {}, lay_out).id, flush=True)
time.sleep(600)
"""


def test_what_a_killed_desk_left_is_told_and_what_waited_goes_on(tmp_path: Path) -> None:
    work = tmp_path / "work"
    environment = {**os.environ, "XDG_CACHE_HOME": str(tmp_path / "cache")}
    command = [sys.executable, "-c", DESK, str(work), LONG]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=environment) as desk:
        assert desk.stdout is not None
        first, second = (JobId(desk.stdout.readline().strip()) for _ in range(2))
        seen = WorkQueue(work)
        at_work(seen, first)
        worker = process_of(seen, seen.get(first))
        desk.kill()
    after = WorkQueue(work)
    for name in (first, second):
        (after.files.of(name) / ASKED / "commission.toml").write_text(QUICK)
    after.open()
    try:
        left = after.get(first)
        assert left.state is WorkState.BROKEN
        assert left.refused is not None
        assert left.refused["code"] == "desk-closed"
        assert over(after, second).state is WorkState.DONE
        after.retry(first)
        assert over(after, first).state is WorkState.DONE
        with pytest.raises(ProcessLookupError):
            os.kill(worker, 0)
    finally:
        after.close()


def test_a_second_desk_leaves_alone_what_the_first_has_under_way(queue: WorkQueue, tmp_path: Path) -> None:
    job = asked(queue, LONG)
    at_work(queue, job.id)
    other = WorkQueue(tmp_path / "work")
    other.open()
    assert other.get(job.id).state is WorkState.WORKING
    with pytest.raises(InputRefused, match="work-elsewhere"):
        other.stop(job.id)
    other.close()
    assert queue.stop(job.id).state is WorkState.STOPPED


def test_closing_ends_what_is_under_way_and_tells_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    queue = WorkQueue(tmp_path / "work")
    job = asked(queue, LONG)
    at_work(queue, job.id)
    queue.close()
    left = queue.get(job.id)
    assert left.state is WorkState.BROKEN
    assert left.refused is not None
    assert left.refused["code"] == "desk-closed"


def test_what_cannot_be_kept_in_the_end_is_the_job_s_end(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))

    def settle(job: LongJob, made: Path) -> LongJob:
        assert (made / "quantities.json").is_file()
        raise RecordConflict("piece-gone", job.about, None, "", "Take it in again.")

    queue = WorkQueue(tmp_path / "work", settle)
    job = over(queue, asked(queue, QUICK).id)
    queue.close()
    assert (job.state, (job.refused or {}).get("code")) == (WorkState.REFUSED, "piece-gone")


def test_work_that_cannot_even_be_begun_has_ended_and_can_be_tried_again(
    queue: WorkQueue, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> LongJob:
        raise OSError(errno.ENOSPC, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr("moldwright.web.long_work.queue.run_job", full)
        job = over(queue, asked(queue, QUICK).id)
    assert job.state is WorkState.BROKEN
    assert "No space left" in (job.refused or {})["actual"]
    queue.retry(job.id)
    assert over(queue, job.id).state is WorkState.DONE


def test_who_stops_work_whose_result_is_just_being_kept_is_told_that_it_is_done(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    began, go = Event(), Event()

    def settle(job: LongJob, _: Path) -> LongJob:
        began.set()
        assert go.wait(SOON_S)
        return job

    queue = WorkQueue(tmp_path / "work", settle)
    job = asked(queue, QUICK)
    assert began.wait(SOON_S)
    with ThreadPoolExecutor(1) as pool:
        stopping = pool.submit(queue.stop, job.id)
        with pytest.raises(TimeoutError):
            stopping.result(0.3)
        go.set()
        assert stopping.result(SOON_S).state is WorkState.DONE
    queue.close()


def test_a_plan_that_is_made_once_more_takes_the_place_of_the_one_before(tmp_path: Path) -> None:
    made, home = tmp_path / "made", tmp_path / "plans" / "a"
    for word in ("first", "second"):
        made.mkdir()
        (made / word).touch()
        put(made, home)
    assert [each.name for each in home.iterdir()] == ["second"]
    assert not made.exists()


def test_what_is_over_for_a_week_is_swept(queue: WorkQueue, tmp_path: Path) -> None:
    """When a desk opens, and whenever something is asked for at one that stays open."""
    old, older = (over(queue, asked(queue, QUICK).id) for _ in range(2))
    ends(queue, old)
    young = over(queue, asked(queue, QUICK).id)
    assert [job.id for job in queue.files.every()] == [older.id, young.id]
    ends(queue, older)
    WorkQueue(tmp_path / "work").open()
    assert [job.id for job in queue.files.every()] == [young.id]


def ends(queue: WorkQueue, job: LongJob) -> None:
    """It was over more than a week ago."""
    with locked(queue.files.of(job.id) / LOCK, wait=True):
        queue.files.write(job.ended(WorkState.DONE, (job.ended_ms or 0) - KEPT_MS - 1))


@pytest.mark.parametrize("name", ["", "..", "../work", "/etc", "a", "017f22e2-79b0-7cc3-98c4-dc0c0c07398f", "\0"])
def test_nothing_but_a_job_s_id_is_ever_a_path(queue: WorkQueue, name: str) -> None:
    with pytest.raises(InputRefused, match="not-kept"):
        queue.get(JobId(name))


def test_a_folder_that_is_no_job_s_is_passed_over(queue: WorkQueue) -> None:
    odd = queue.files.folder / "017f22e2-79b0-7cc3-98c4-dc0c0c07398f"
    odd.mkdir()
    (odd / JOB).write_text('{"kind": "dance"}')
    assert queue.files.every() == ()
