"""What may meet: nothing dangerous is ever cleared by itself. Source: common practice, as each rule says."""

from __future__ import annotations

import pytest

from moldwright.errors import InputRefused
from moldwright.materials import Library, library
from moldwright.materials.compatibility import MUST_BE_KNOWN, Finding, judge
from moldwright.materials.rules import Slot, Verdict, rule_words
from moldwright.materials.shipped import shipped

ADDITION = [r.id for r in library().all("rubber") if r.id.startswith("addition-cure")]
SEALERS = ["", *(s.id for s in library().all("sealer"))]
RELEASES = ["", *(r.id for r in library().all("release"))]
SULFUR = ["sulfur clay", "sulphur clay", "Sulfur Clay", "oil clay", "plasticine", "rubber"]
PRINTS = ["photopolymer print", "resin print", "SLA print", "photopolymer print, post-cured", "3d print", "uv resin"]


def look(
    original: str = "plastic",
    sealer: str = "",
    release: str = "",
    rubber: str = "addition-cure-a10-slow",
    resin: str = "urethane-fast",
    powder: str = "bronze",
    shell: str = "plaster bandage",
    lib: Library | None = None,
    cast_release: str = "",
) -> tuple[Finding, ...]:
    return judge(original, sealer, release, rubber, resin, powder, shell, lib or library(), cast_release)


def about(findings: tuple[Finding, ...], word: str) -> list[Finding]:
    return [f for f in findings if word in between(f)]


def between(finding: Finding) -> str:
    return " + ".join(finding.names)


def reason(finding: Finding) -> str:
    return rule_words()[finding.rule].reason


@pytest.mark.parametrize("original", SULFUR + PRINTS)
def test_sulfur_and_photopolymer_are_never_cleared_under_addition_cure(original: str) -> None:
    for rubber in ADDITION:
        name = library().rubber(rubber).name
        for sealer in SEALERS:
            for release in RELEASES:
                pair = [f for f in look(original, sealer, release, rubber) if f.names[1] == name]
                pair = [f for f in pair if f.names[0] in shipped("originals")]
                assert pair
                assert all(f.verdict is not Verdict.CLEAR for f in pair)
                assert any(f.patch_test for f in pair)


def test_a_shop_sheet_cannot_clear_sulfur() -> None:
    rubber = '[rubber.ours]\nlike = "addition-cure-a10-slow"\nname = "ours"\ntags = ["tin"]\n'
    text = rubber + '[sealer.perfect]\nlike = "acrylic"\nname = "perfect sealer"\n'
    found = look("sulfur clay", "perfect", "", "ours", lib=library({"own.toml": text}))
    pair = about(found, "sulfur clay + ours")
    assert pair
    assert all(f.verdict is not Verdict.CLEAR for f in pair)
    assert any(f.patch_test for f in pair)


def test_bare_sulfur_clay_is_stopped_and_the_remedy_names_another_rubber() -> None:
    worst = look("sulfur clay")[0]
    assert (worst.verdict, worst.patch_test) == (Verdict.STOP, True)
    assert "condensation-cure" in rule_words()[worst.rule].remedy


@pytest.mark.parametrize("original", ["unknown", "", "moon rock", "grey sulfur clay from the attic"])
def test_what_is_not_known_asks_for_a_patch_test(original: str) -> None:
    for rubber in library().all("rubber"):
        assert any(f.patch_test for f in look(original, rubber=rubber.id, release="wax-release"))


def test_an_ordinary_job_needs_no_patch_test() -> None:
    found = look("plastic")
    assert not any(f.patch_test for f in found)
    assert {f.verdict for f in found} == {Verdict.DOUBT, Verdict.CLEAR}


@pytest.mark.parametrize(
    ("job", "word", "severity", "says"),
    [
        ({"original": "silicone"}, "silicone + addition", "stop", "bonds"),
        ({"original": "silicone", "release": "silicone-release"}, "silicone + addition", "doubt", "bonds"),
        ({"original": "tin silicone"}, "tin silicone", "stop", "tin"),
        ({"original": "wax"}, "wax + plaster", "doubt", "hot"),
        ({"original": "water clay", "rubber": "urethane-a30"}, "water clay", "stop", "foam"),
        ({"rubber": "urethane-a30", "resin": "urethane-fast"}, "urethane rubber", "stop", "bonds"),
        ({"rubber": "latex", "resin": "polyester"}, "latex", "stop", "styrene"),
        ({"rubber": "condensation-cure-a25", "resin": "urethane-clear"}, "condensation", "doubt", "sticky"),
        ({"resin": "polyester"}, "polyester + bronze", "doubt", "copper"),
        ({"resin": "polyester", "shell": "printed"}, "printed + casting polyester", "doubt", "styrene"),
        ({"resin": "modified-gypsum", "powder": "aluminum"}, "gypsum + aluminum", "stop", "hydrogen"),
        ({"resin": "modified-gypsum", "powder": "zinc"}, "gypsum + zinc", "stop", "hydrogen"),
        ({"powder": "aluminum"}, "urethane + aluminum", "doubt", "hydrogen"),
        ({}, "urethane + bronze", "doubt", "damp"),
        ({}, "gloves", "doubt", "latex gloves"),
        ({}, "tools", "doubt", "tin"),
        ({}, "isopropanol", "doubt", "isocyanate"),
        ({"original": "epoxy putty"}, "epoxy putty", "doubt", "amine"),
        ({"release": "wax-release"}, "plastic + wax", "doubt", "solvent"),
        ({"original": "bronze", "rubber": "latex"}, "bronze + mold latex", "doubt", "copper"),
    ],
)
def test_known_trouble_is_told(job: dict[str, str], word: str, severity: str, says: str) -> None:
    hits = [f for f in about(look(**job), word) if f.verdict is Verdict(severity)]
    assert any(says.casefold() in reason(f).casefold() for f in hits), hits
    assert all(rule_words()[f.rule].remedy and f.source for f in hits)


def _jobs() -> list[dict[str, str]]:
    """Every pair of neighbors at least once, bare and treated."""
    rubbers = [s.id for s in library().all("rubber")]
    resins = [s.id for s in library().all("resin")]
    powders = ["", *(s.id for s in library().all("powder"))]
    shells = [s.id for s in library().all("shell")]
    jobs = [
        {"original": o, "rubber": r, "sealer": s, "release": t}
        for o in shipped("originals")
        for r in rubbers
        for s, t in [("", ""), *((s, "") for s in SEALERS[1:]), *(("shellac", t) for t in RELEASES[1:])]
    ]
    jobs += [{"resin": c, "powder": p, "shell": s} for c in resins for p in powders for s in shells]
    jobs += [
        {"rubber": r, "resin": c, "shell": s, "release": t, "cast_release": t}
        for r in rubbers
        for c in resins
        for s in shells
        for t in RELEASES
    ]
    jobs += [{"original": o, "shell": s} for o in shipped("originals") for s in shells]
    return jobs


def test_no_pair_stays_unspoken_and_every_rule_is_reached() -> None:
    """A job always says something of original and rubber, rubber and resin, rubber and shell, resin and powder."""
    reached: set[str] = set()
    for job in _jobs():
        found = look(**job)
        reached |= {f.rule for f in found}
        for pair in MUST_BE_KNOWN[:3]:
            left = _name(pair[0], job)
            assert any(f.names[0] == left for f in found), (job, pair)
        for slots in {f.slots for f in found}:
            verdicts = {f.verdict for f in found if f.slots == slots}
            assert Verdict.CLEAR not in verdicts or len(verdicts) == 1
    rules = {rule["id"] for rule in shipped("compatibility")["rule"]}
    assert rules - reached == set()


def _name(slot: Slot, job: dict[str, str]) -> str:
    if slot is Slot.ORIGINAL:
        return job.get("original", "plastic")
    return library().rubber(job.get("rubber", "addition-cure-a10-slow")).name


def test_every_tag_of_a_rule_exists() -> None:
    lib = library()
    sheets = {kind: lib.all(kind) for kind in ("sealer", "release", "rubber", "resin", "powder", "shell")}
    implied = shipped("compatibility")["implied"]
    known = {
        slot: {"none", "some", *(t for s in rows for t in s.tags)}
        | {t for s in rows for t in (getattr(s, "chemistry", ""), *implied.get(getattr(s, "chemistry", ""), ()))}
        for slot, rows in sheets.items()
    }
    known["cast-release"] = known["release"]
    known["original"] = {t for row in shipped("originals").values() for t in row["tags"]}
    for rule in shipped("compatibility")["rule"]:
        for slot, tags in rule["when"].items():
            assert set(tags) <= known[slot], rule["id"]


def test_rules_have_ids_of_their_own() -> None:
    rule_ids = [rule["id"] for rule in shipped("compatibility")["rule"]]
    assert len(rule_ids) == len(set(rule_ids))


def test_no_word_stands_for_two_originals() -> None:
    words = [w for name, row in shipped("originals").items() for w in (name, *row["also"])]
    assert sorted(w for w in set(words) if words.count(w) > 1) == []
    assert all(w == w.casefold() for w in words)


def test_an_unknown_id_is_refused() -> None:
    with pytest.raises(InputRefused, match="unknown-material"):
        look(rubber="addition-cure-a99")


def test_no_text_calls_anything_safe() -> None:
    for rule in shipped("compatibility")["rule"]:
        text = f"{rule['reason']} {rule['remedy']}".casefold().replace("safety data sheet", "")
        assert " safe " not in f" {text} ".replace(".", " ").replace(",", " ") or "safer" in text, rule["id"]
