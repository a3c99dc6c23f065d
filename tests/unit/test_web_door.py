"""Coming in: by the passphrase, by an invitation, not too often, and always with the same answer to what was wrong.

Times are told by the test's own clock. Figures: RFC 9106, 4 (argon2id's second recommended option), RFC 9110, 10.2.3
(Retry-After), RFC 6585, 4 (429); limits of tries as `docs/desk.md` tells them.
"""

from __future__ import annotations

import base64
import re
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import pytest
from fastapi.testclient import TestClient
from httpx2 import Response
from segno import make
from tests.at_desk import META, SetClock, known_as, settings_in

from moldwright.errors import InputRefused
from moldwright.web.app import create_app
from moldwright.web.doors.doors import Doors
from moldwright.web.doors.state import CameBy
from moldwright.web.doors.tries import Tries
from moldwright.web.doors.visitor import Role
from moldwright.web.settings import LOOPBACK

SITE = "http://desk.local:8477"
PHRASE = "four odd words here"
MIN_MS = 60_000


@pytest.fixture
def clock() -> SetClock:
    return SetClock()


@pytest.fixture
def doors(tmp_path: Path, clock: SetClock) -> Doors:
    made = Doors(tmp_path / "desk", clock)
    made.passphrase.set(PHRASE)
    return made


def device(tmp_path: Path, doors: Doors, address: str = "192.0.2.7") -> TestClient:
    settings = replace(settings_in(tmp_path), lan=True, hosts=(*LOOPBACK, "desk.local"))
    return TestClient(create_app(settings, doors), base_url=SITE, client=(address, 50_000), follow_redirects=False)


@pytest.fixture
def tablet(tmp_path: Path, doors: Doors) -> Iterator[TestClient]:
    with device(tmp_path, doors) as found:
        yield found


def sign_in(client: TestClient, phrase: str) -> Response:
    return client.post("/api/door/in", json={"passphrase": phrase, "device": "laptop"})


def join(client: TestClient, code: str) -> Response:
    return client.post("/api/door/join", json={"code": code})


def as_owner(doors: Doors, way: CameBy = CameBy.PASSPHRASE) -> dict[str, str]:
    return known_as(doors, Role.OWNER, way, "laptop")


def test_the_passphrase_lets_the_owner_in(tablet: TestClient, doors: Doors) -> None:
    answer = sign_in(tablet, PHRASE)
    assert answer.status_code == 204
    assert "HttpOnly; SameSite=Strict" in answer.headers["set-cookie"]
    page = tablet.get("/shop")
    found = META.search(page.text)
    assert found
    assert "laptop" in page.text
    assert tablet.post("/api/door/out", headers={"x-token": found[1]}).status_code == 204
    assert tablet.get("/shop").status_code == 303
    assert not doors.sessions.all()


FORM = re.compile(r'<form method="post" action="([^"]*)"[^>]*>(.*?)</form>', re.DOTALL)
FIELD = re.compile(r'<input id="[a-z]+" name="([a-z]+)"')


def test_both_forms_of_the_door_work_without_a_script(tmp_path: Path, doors: Doors) -> None:
    """As a browser sends them: the fields that they have, to where they say (HTML, WHATWG, 4.10.21)."""
    code, _ = doors.invitations.make(Role.BENCH, "tablet")
    typed = {"code": code, "passphrase": PHRASE, "device": "laptop"}
    with device(tmp_path, doors) as client:
        forms = [(action, FIELD.findall(inside)) for action, inside in FORM.findall(client.get("/door").text)]
    assert [fields for _, fields in forms] == [["code"], ["passphrase", "device"]]
    for action, fields in forms:
        with device(tmp_path, doors) as client:
            answer = client.post(action, data={name: typed[name] for name in fields}, headers={"origin": SITE})
            assert (answer.status_code, answer.headers["location"]) == (303, "/")
            assert client.get("/").status_code == 200
    assert {each.role for each in doors.sessions.all()} == {Role.BENCH, Role.OWNER}


def test_a_form_that_does_not_open_is_told_on_the_door_and_counted(tablet: TestClient, doors: Doors) -> None:
    told = {"passphrase": "wrong words all over", "device": "laptop"}
    for _ in range(5):
        answer = tablet.post("/door", data=told, headers={"origin": SITE})
        assert answer.status_code == 403
        assert 'role="alert"' in answer.text
        assert "wrong words" not in answer.text
    answer = tablet.post("/door", data=told | {"passphrase": PHRASE}, headers={"origin": SITE})
    assert (answer.status_code, answer.headers["retry-after"]) == (429, "600")
    assert not doors.sessions.all()


@pytest.mark.parametrize(
    "headers", [{}, {"origin": "http://elsewhere.example"}, {"origin": "null"}, {"sec-fetch-site": "same-site"}]
)
def test_a_form_of_another_site_signs_nobody_in(tablet: TestClient, doors: Doors, headers: dict[str, str]) -> None:
    """Nor does one whose browser tells nothing: there is no token yet that could vouch for it."""
    answer = tablet.post("/door", data={"passphrase": PHRASE, "device": "laptop"}, headers=headers)
    assert (answer.status_code, answer.json()["error"]["code"]) == (403, "other-site")
    assert not doors.sessions.all()


@pytest.mark.parametrize(
    ("body", "kind"),
    [(b"x" * 8001, "application/x-www-form-urlencoded"), (b"a&" * 99, "application/x-www-form-urlencoded"),
     (b"\xff", "application/x-www-form-urlencoded"), (b"{}", "application/json")],
)  # fmt: skip
def test_what_is_no_form_is_refused(tablet: TestClient, body: bytes, kind: str) -> None:
    answer = tablet.post("/door", content=body, headers={"origin": SITE, "content-type": kind})
    assert answer.json()["error"]["code"] in ("request-unclear", "device-name")


def test_it_is_the_same_passphrase_on_every_keyboard(tablet: TestClient, doors: Doors) -> None:
    """U+00E9 and e + U+0301 are the same letter, and the ligature U+FB01 is fi (Unicode, annex 15, NFKC)."""
    doors.passphrase.set("caf\u00e9 of\ufb01ce by the river")
    assert sign_in(tablet, "cafe\u0301 office by the river").status_code == 204


def test_what_is_kept_of_it_is_argon2id_at_the_strength_that_is_recommended(doors: Doors) -> None:
    """RFC 9106, 4: t = 3, p = 4, m = 2^16 KiB, a salt of 128 bits, a tag of 256 bits."""
    text = doors.file.read().passphrase
    _, kind, version, parameters, salt, tag = text.split("$")
    assert (kind, version, parameters) == ("argon2id", "v=19", "m=65536,t=3,p=4")
    assert [len(base64.b64decode(f"{part}==")) for part in (salt, tag)] == [16, 32]
    assert PHRASE not in doors.file.path.read_text()
    before = text
    doors.passphrase.set(PHRASE)
    assert doors.file.read().passphrase != before, "the salt is of chance"


@pytest.mark.parametrize(
    "phrase", ["", "short words", "a" * 40, "abababababababababab", "x" * 201, "\ufb03" * 3], ids=len
)
def test_what_others_would_soon_guess_is_refused(doors: Doors, phrase: str) -> None:
    with pytest.raises(InputRefused, match="passphrase-weak"):
        doors.passphrase.set(phrase)
    assert doors.passphrase.fits(PHRASE)


def test_the_answer_is_the_same_whatever_was_wrong(tmp_path: Path, doors: Doors, clock: SetClock) -> None:
    code, _ = doors.invitations.make(Role.BENCH, "tablet")
    with device(tmp_path, doors) as first:
        assert join(first, code).status_code == 204
    gone, _ = doors.invitations.make(Role.BENCH, "tablet")
    clock.now_ms += 10 * MIN_MS
    none_set = Doors(tmp_path / "other", clock)
    unset, _ = none_set.invitations.make(Role.BENCH, "tablet")
    with device(tmp_path, doors, "192.0.2.8") as client, device(tmp_path, none_set, "192.0.2.8") as new:
        answers = [sign_in(client, "three odd words here"), sign_in(client, ""), join(client, "AAAA-AAAA")]
        answers += [join(client, code), join(client, gone), sign_in(new, PHRASE), join(new, unset)]
    assert {(each.status_code, each.text) for each in answers} == {(403, answers[0].text)}
    assert not any("set-cookie" in each.headers for each in answers)


def test_an_invitation_opens_once_with_the_role_and_name_that_the_owner_gave(
    tmp_path: Path, tablet: TestClient, doors: Doors
) -> None:
    told = tablet.post("/api/invitations", json={"role": "bench", "device": "at the bench"}, headers=as_owner(doors))
    assert told.status_code == 201
    code = told.json()["code"]
    assert told.json()["address"] == f"{SITE}/door#{code}"
    with device(tmp_path, doors, "192.0.2.8") as client:
        assert join(client, f" {code.lower().replace('-', ' ')} ").status_code == 204
        assert 'value="at the bench"' in client.get("/shop").text
    invited = next(each for each in doors.sessions.all() if each.way is CameBy.INVITATION)
    assert (invited.role, invited.device) == (Role.BENCH, "at the bench")
    with device(tmp_path, doors, "192.0.2.9") as client:
        assert join(client, code).status_code == 403


def test_two_who_scan_the_same_code_at_once_do_not_both_come_in(doors: Doors) -> None:
    code, _ = doors.invitations.make(Role.BENCH, "tablet")
    with ThreadPoolExecutor(8) as crowd:
        found = list(crowd.map(lambda _: doors.invitations.take(code), range(16)))
    assert len([each for each in found if each]) == 1


def test_an_invitation_ends_after_ten_minutes(doors: Doors, clock: SetClock) -> None:
    code, ends_ms = doors.invitations.make(Role.VIEW, "tablet")
    other, _ = doors.invitations.make(Role.VIEW, "tablet")
    assert ends_ms == clock.now_ms + 600_000
    clock.now_ms += 599_999
    assert doors.invitations.take(code) is not None
    clock.now_ms += 1
    assert doors.invitations.take(other) is None
    assert not doors.file.read().invitations


def test_the_square_holds_the_address_and_nothing_else(tablet: TestClient, doors: Doors) -> None:
    """Drawn again by the library itself, as it draws squares: dark where ours is dark."""
    told = tablet.post("/api/invitations", json={"role": "view", "device": "tv"}, headers=as_owner(doors)).json()
    drawn = {tuple(map(int, part.split("h")[0].split())) for part in told["qr"].split("M")[1:]}
    made = make(told["address"], error="M", micro=False)
    wanted = {(x, y) for y, row in enumerate(made.matrix) for x, dark in enumerate(row) if dark}
    assert drawn == wanted
    assert told["across"] == len(made.matrix)


def test_a_fifth_wrong_try_is_looked_at_and_a_sixth_waits(tablet: TestClient, doors: Doors, clock: SetClock) -> None:
    for _ in range(5):
        assert sign_in(tablet, "wrong words all over").status_code == 403
        clock.now_ms += MIN_MS
    answer = sign_in(tablet, PHRASE)
    assert answer.status_code == 429, "the right one too: else it would tell what is right"
    assert answer.headers["retry-after"] == "300", "ten minutes after the first, of which five have passed"
    assert "5 min" in answer.json()["error"]["remedy"]
    clock.now_ms += 5 * MIN_MS - 1
    assert join(tablet, "AAAA-AAAA").status_code == 429, "codes and passphrases count together"
    clock.now_ms += 1
    assert sign_in(tablet, PHRASE).status_code == 204


def test_who_gets_in_is_not_counted(doors: Doors, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(doors.passphrase, "fits", lambda told: told == PHRASE)
    for _ in range(7):
        assert isinstance(doors.by_passphrase(PHRASE, "laptop", "192.0.2.7"), str)


def test_many_addresses_together_try_thirty_times_an_hour(clock: SetClock) -> None:
    tries = Tries(clock)
    made = [tries.claim(f"192.0.2.{number}") for number in range(40)]
    assert [each is None for each in made] == [True] * 30 + [False] * 10
    assert {each.wait_s for each in made[30:] if each} == {3600}
    clock.now_ms += 3_600_000
    assert tries.claim("192.0.2.200") is None
    assert len(tries.made) == 2, "what is past is forgotten"


def test_a_whole_network_of_ipv6_is_one(clock: SetClock) -> None:
    tries = Tries(clock)
    made = [tries.claim(f"2001:db8:0:1::{number:x}") for number in range(6)]
    assert [each is None for each in made] == [True] * 5 + [False]
    assert tries.claim("2001:db8:0:2::1") is None


def test_a_crowd_at_once_is_counted_before_it_is_looked_at(clock: SetClock) -> None:
    tries = Tries(clock)
    with ThreadPoolExecutor(8) as crowd:
        made = list(crowd.map(lambda _: tries.claim("192.0.2.7"), range(50)))
    assert len([each for each in made if each is None]) == 5


def test_a_new_passphrase_needs_the_old_one_and_signs_those_out_who_came_by_it(
    tablet: TestClient, doors: Doors
) -> None:
    mine, other = as_owner(doors), as_owner(doors)
    invited = as_owner(doors, CameBy.INVITATION)
    new = {"new": "five quite other words", "again": "five quite other words"}
    assert tablet.put("/api/passphrase", json=new, headers=mine).json()["error"]["code"] == "sign-in-refused"
    differs = new | {"now": PHRASE, "again": "five quite other word"}
    assert tablet.put("/api/passphrase", json=differs, headers=mine).json()["error"]["code"] == "passphrase-differs"
    assert doors.passphrase.fits(PHRASE)
    assert tablet.put("/api/passphrase", json=new | {"now": PHRASE}, headers=mine).status_code == 204
    assert not doors.passphrase.fits(PHRASE)
    assert doors.passphrase.fits("five quite other words")
    open_ = [tablet.get("/shop", headers=each).status_code for each in (mine, other, invited)]
    assert open_ == [200, 303, 200]


def test_the_machine_itself_sets_it_without_the_old_one_and_its_cookie_is_no_use_elsewhere(
    tmp_path: Path, doors: Doors
) -> None:
    settings = replace(settings_in(tmp_path), lan=True, hosts=(*LOOPBACK, "desk.local"))
    app = create_app(settings, doors)
    with TestClient(app, base_url="http://localhost:8477", client=("127.0.0.1", 1)) as here:
        found = META.search(here.get("/shop", headers={"accept": "text/html"}).text)
        assert found
        new = {"new": "five quite other words", "again": "five quite other words"}
        assert here.put("/api/passphrase", json=new, headers={"x-token": found[1]}).status_code == 204
        cookie = "; ".join(f"{name}={value}" for name, value in here.cookies.items())
    assert doors.passphrase.fits("five quite other words")
    with device(tmp_path, doors) as far:
        assert far.get("/shop", headers={"cookie": cookie}).status_code == 303


def test_the_owner_signs_out_one_device_and_then_all_others(tablet: TestClient, doors: Doors) -> None:
    mine = as_owner(doors)
    one, two, three = (as_owner(doors, CameBy.INVITATION) for _ in range(3))
    name = doors.sessions.of(one["cookie"].partition("=")[2])
    assert name is not None
    assert tablet.delete(f"/api/sessions/{name.name}", headers=mine).status_code == 204
    assert [tablet.get("/shop", headers=each).status_code for each in (mine, one, two)] == [200, 303, 200]
    assert tablet.delete("/api/sessions", headers=mine).status_code == 204
    assert [tablet.get("/shop", headers=each).status_code for each in (mine, two, three)] == [200, 303, 303]


def test_a_device_is_called_as_its_user_says_and_reads_as_they_like(tablet: TestClient, doors: Doors) -> None:
    mine = as_owner(doors)
    assert tablet.put("/api/device", json={"device": " bench 2 ", "by": "Ada"}, headers=mine).status_code == 204
    assert [(each.device, each.by) for each in doors.sessions.all()] == [("bench 2", "Ada")]
    for wrong in ("", "  ", "two\nlines", "x" * 81, "\u202eturned"):
        assert tablet.put("/api/device", json={"device": wrong}, headers=mine).status_code == 422
    kept = tablet.put("/api/reading", json={"units": "us", "look": "dark"}, headers=mine)
    assert kept.status_code == 204
    cookies = kept.headers.get_list("set-cookie")
    assert all("SameSite=lax" in each and "Path=/" in each for each in cookies)
    page = tablet.get("/shop", headers=mine | {"cookie": f"{mine['cookie']}; units=us; look=dark"})
    assert 'data-look="dark" data-units="us"' in page.text
    other = tablet.put("/api/reading", json={"language": "xx"}, headers=mine)
    assert other.json()["error"]["code"] == "language-unknown"
    assert tablet.put("/api/reading", json={"look": "pink"}, headers=mine).status_code == 422


def test_who_only_reads_sees_nothing_of_the_owner_s(tablet: TestClient, doors: Doors) -> None:
    secret = doors.sessions.begin(Role.VIEW, "tv", CameBy.INVITATION)
    text = tablet.get("/shop", headers={"cookie": f"session-8477={secret}"}).text
    assert "This device" in text
    assert not any(word in text for word in ("backup", "Invite", "passphrase", "signed in"))


@pytest.mark.parametrize(("role", "only"), [(Role.VIEW, True), (Role.BENCH, False)])
def test_who_only_looks_is_told_so_on_every_page(tablet: TestClient, doors: Doors, role: Role, only: bool) -> None:
    secret = doors.sessions.begin(role, "tv", CameBy.INVITATION)
    for path in ("/", "/shelf", "/editions"):
        text = tablet.get(path, headers={"cookie": f"session-8477={secret}"}).text
        assert ("/take-in" not in text) == only
        assert ("may only look" in text) == only
