"""Cautions that follow from this job's figures: compatibility, hazards, scale, cups, powder, moisture."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from moldwright.cast.filled import thickened
from moldwright.cast.foam import foam_ml
from moldwright.commission.orders import ShopOrder
from moldwright.materials import Library, Sheet
from moldwright.materials.compatibility import Finding
from moldwright.materials.hazards import deference, full_statements, short_statements, tag_cautions
from moldwright.materials.kinds import TwoPart
from moldwright.mixing.cups import RATIO_TOLERANCE
from moldwright.plan.plan import Caution, CoatPlan, MixPlan
from moldwright.quantities.cast import BACKFILL, SKIN, CastQuantities
from moldwright.quantities.chosen import Chosen
from moldwright.steps.draft import slug
from moldwright.units import show_mass, show_volume

COMMON = "common practice, no source"
THICK_PA_S = 5.0
"""Above this a mix no longer runs into detail by itself: common practice, no source."""
DAMP_SHARE = 0.001
"""Water that a powder may hold that was left open, by weight: from memory, low confidence."""
GHS_SOURCE = "GHS statements usual for the class; the supplier's safety data sheet overrides"
SCALE_SOURCE = "computed: JCGM 100:2008 F.2.2.1 (from memory), k = 2"
MOISTURE_SOURCE = "computed: stoichiometry and the ideal gas; 0.1 % moisture from memory, low confidence"


def mix_step(name: str, coats: Iterable[CoatPlan]) -> str:
    """The id of the step in which a cup is mixed: a coat's, the skin's or the back-fill's.

    Parameters
    ----------
    name : `MixPlan.for_`
    coats : the plan's coats

    Source: the steps' data.
    """
    return f"coat-{slug(name)}-mix" if any(coat.name == name for coat in coats) else name


def finding_cautions(findings: Iterable[Finding], chosen: Chosen, coats: tuple[CoatPlan, ...]) -> list[Caution]:
    """Every judgment that is not clear, on the patch test or on the step where the two things meet.

    Parameters
    ----------
    findings : judgments of compatibility
    chosen : the sheets
    coats : the plan's coats

    Source: the finding's own.
    """
    severity = {"doubt": "heed", "stop": "stop"}
    return [
        Caution(
            _where(finding, chosen, coats),
            severity[finding.severity],
            f"{finding.between}: {finding.reason} {finding.remedy}".strip(),
            finding.source,
        )
        for finding in findings
        if finding.severity in severity and not _told_by_the_step(finding, chosen)
    ]


def _told_by_the_step(finding: Finding, chosen: Chosen) -> bool:
    """Latex gloves and alcohol stand as a stop on their steps, damp powder with this job's grams on the powder's."""
    if finding.patch_test:
        return False
    names = finding.between.split(" + ")
    if chosen.powder is not None and "metal" in chosen.powder.tags and {"isopropanol", chosen.resin.name} == set(names):
        return chosen.resin.isocyanate_part != ""
    gloves = "gloves" in names and chosen.rubber.chemistry.startswith("addition")
    powder = chosen.powder is not None and chosen.resin.isocyanate_part != "" and "foam" in finding.reason.lower()
    return gloves or (powder and chosen.powder is not None and {chosen.powder.name, chosen.resin.name} == set(names))


def _where(finding: Finding, chosen: Chosen, coats: tuple[CoatPlan, ...]) -> str:
    if finding.patch_test:
        return "patch-test"
    names = finding.between.split(" + ")
    if "isopropanol" in names:
        return "solvent-wipe"
    meets = (
        (chosen.powder, "powder-dry"),
        (chosen.release, "release"),
        (chosen.sealer, "seal"),
        (chosen.resin, "rubber-full-cure" if chosen.shell.name in names else "lay-out"),
        (chosen.shell, "wax-rubber"),
        (chosen.rubber, mix_step(coats[0].name, coats)),
    )
    return next((step for sheet, step in meets if sheet is not None and sheet.name in names), "lay-out")


def hazard_cautions(chosen: Chosen, coats: tuple[CoatPlan, ...], said: Mapping[str, str]) -> list[Caution]:
    """What every chosen material can do: in full where the materials are laid out, in short on the step that opens it.

    Parameters
    ----------
    chosen : the sheets
    coats : the plan's coats
    said : by step, what its own cautions say already; a sentence whose subject stands there is not said twice

    Source: the sheets' H codes (GHS); the supplier's safety data sheet overrides.
    """
    opened: tuple[tuple[Sheet | None, str], ...] = (
        (chosen.sealer, "seal"),
        (chosen.release, "release"),
        (chosen.rubber, mix_step(coats[0].name, coats)),
        (chosen.shell, "shell-2" if "printed" not in chosen.shell.tags else "shell-print"),
        (chosen.powder, "powder-dry"),
        (chosen.resin, SKIN),
        (chosen.backfill, BACKFILL),
    )
    used = [(sheet, step) for sheet, step in opened if sheet is not None]
    full: dict[str, list[str]] = {}
    for sheet in dict.fromkeys(sheet for sheet, _ in used if sheet.hazards):
        full.setdefault(full_statements(sheet), []).append(sheet.name)
    short = [(step, _brief(sheet, said.get(step, ""))) for sheet, step in used]
    return [
        *(Caution("lay-out", "heed", f"{', '.join(names)}: {text}", GHS_SOURCE) for text, names in full.items()),
        *(Caution(step, "heed", text, GHS_SOURCE) for step, text in short if text),
    ]


def _brief(sheet: Sheet, said: str) -> str:
    """The sheet's own cautions, what its tags ask for, and its codes; "" where the step has said it all."""
    tags = [text for text in tag_cautions(sheet) if text.partition(":")[0].lower() not in said.lower()]
    texts = [*sheet.cautions, *tags, *([short_statements(sheet)] if sheet.hazards else [])]
    if not texts:
        return ""
    return " ".join([f"{sheet.name}:", *texts, *(() if "safety data sheet" in said else (deference(),))])


def cup_cautions(
    mixes: tuple[MixPlan, ...], coats: tuple[CoatPlan, ...], chosen: Chosen, shop: ShopOrder
) -> list[Caution]:
    """Cups too small for the scale, cups larger than the sheet's pot life is stated for.

    Parameters
    ----------
    mixes : all cups
    coats : the plan's coats
    chosen : the sheets
    shop : the scale

    Source: JCGM 100:2008, F.2.2.1 (from memory); common practice, no source.
    """
    cautions = []
    for name in dict.fromkeys(mix.for_ for mix in mixes):
        cups = [mix for mix in mixes if mix.for_ == name]
        sheet = {SKIN: chosen.resin, BACKFILL: chosen.backfill or chosen.resin}.get(name, chosen.rubber)
        step = mix_step(name, coats)
        cautions += [*_too_small(cups, step, shop), *_large(cups, step, sheet, shop.units)]
    return cautions


def _too_small(cups: list[MixPlan], step: str, shop: ShopOrder) -> list[Caution]:
    small_g = min(mix.parts[-1].scale_reads_g for mix in cups)
    least_g = cups[0].smallest_batch_g
    if small_g >= least_g:
        return []
    small, least = show_mass(small_g, shop.units, shop.scale_g), show_mass(least_g, shop.units)
    text = (
        f"A cup of {small} is smaller than this scale can weigh well: it shows steps of "
        f"{show_mass(shop.scale_g, shop.units)}, and the ratio may be off by {cups[-1].tolerance_pct:.1f} %. "
        f"Mix at least {least}, or use a finer scale."
    )
    return [Caution(step, "heed", text, SCALE_SOURCE + f"; {RATIO_TOLERANCE:.0%} allowed: {COMMON}")]


def _large(cups: list[MixPlan], step: str, sheet: TwoPart, units: str) -> list[Caution]:
    most_g, stated_g = max(mix.parts[-1].scale_reads_g for mix in cups), sheet.pot_life_mass_g.likely
    if sheet.chemistry in ("addition-cure silicone", "condensation-cure silicone", "latex") or most_g <= stated_g:
        return []
    text = (
        f"A cup of {show_mass(most_g, units)} heats itself and gels sooner than the {show_mass(stated_g, units)} "
        "that its pot life is stated for. Its work-by time is cut for that, and may still be too long: use it at once, "
        "feel the cup, mix smaller ones if it warms."
    )
    return [Caution(step, "heed", text, "pot life cut by the cube root of stated mass over mass: our own rule")]


def sheet_cautions(library: Library) -> list[Caution]:
    """What is doubtful in the shop's own sheets, where the materials are laid out.

    Parameters
    ----------
    library : the sheets with their findings

    Source: the sheets' check.
    """
    return [
        Caution(
            "lay-out",
            "heed",
            f"Own sheet, {finding.where}: {finding.actual} {finding.unit}. {finding.remedy}",
            "check of the shop's own sheets",
        )
        for finding in library.findings
    ]


def measure_cautions(chosen: Chosen, shop: ShopOrder, coats: tuple[CoatPlan, ...]) -> list[Caution]:
    """What measuring by volume costs, and what must be weighed all the same.

    Parameters
    ----------
    chosen : the sheets
    shop : how it measures
    coats : the plan's coats

    Source: common practice, no source.
    """
    if shop.measure != "volume":
        return []
    first = mix_step(coats[0].name, coats)
    said = [
        Caution(
            first,
            "note",
            "Measured by volume: read at eye level, in cups with straight walls; a scale is surer.",
            COMMON,
        )
    ]
    for resin, step in ((chosen.resin, SKIN), (chosen.backfill, BACKFILL)):
        if resin is not None and resin.weight_only:
            text = f"{resin.name}: weigh it. Its loose volume tells nothing."
            said.append(Caution(step, "stop", text, COMMON))
    return said


def powder_cautions(chosen: Chosen, cast: CastQuantities, units: str) -> list[Caution]:
    """Powder held back, a mix too thick, and what moisture would do.

    Parameters
    ----------
    chosen : the sheets
    cast : the skin's mix
    units : "metric" or "us"

    Source: Maron-Pierce (from memory), stoichiometry, common practice.
    """
    if chosen.powder is None:
        return []
    return [*_thick(chosen, cast), *_damp(chosen, cast, units)]


def _thick(chosen: Chosen, cast: CastQuantities) -> Iterable[Caution]:
    mix = cast.skin_mix
    if mix.thinned:
        most = chosen.resin.powder_max_vol_pct.likely
        text = f"Less powder than one part in three: above {most:g} % of true volume this resin no longer pours."
        yield Caution("powder-wet", "note", text, "the resin's sheet, powder_max_vol_pct")
    viscosity = thickened(chosen.resin.viscosity_pa_s.likely, mix.filled.loading_vol_pct)
    if viscosity > THICK_PA_S:
        text = f"The filled mix is thick, about {viscosity:.1f} Pa s: brush the face with it first, then slush."
        yield Caution(SKIN, "heed", text, "computed: Maron-Pierce (from memory) from the resin's sheet")


def _damp(chosen: Chosen, cast: CastQuantities, units: str) -> Iterable[Caution]:
    if not chosen.resin.isocyanate_part or chosen.powder is None:
        return
    powder_g = sum(
        part.mass_g for mix in cast.mixes if mix.for_ == SKIN for part in mix.parts if part.name == chosen.powder.name
    )
    powder, gas = show_mass(powder_g, units), show_volume(foam_ml(powder_g * DAMP_SHARE), units)
    text = (
        f"Damp powder foams: 0.1 % of water in {powder} of powder makes {gas} of gas in the skin. "
        "Dry it warm, let it cool in a closed jar, use it the same day, wet it out in the part without isocyanate."
    )
    yield Caution("powder-dry", "note", text, MOISTURE_SOURCE)
