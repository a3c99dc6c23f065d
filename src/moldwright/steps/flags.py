"""The words on which a step, a line or a caution depends: which materials, which shape, how many."""

from __future__ import annotations

from collections.abc import Iterable

from moldwright.cast.resin_recipe import LONG_POT_LIFE_S
from moldwright.steps.context import StepContext

SOLVENTS = ("alcohol", "solvent", "mineral spirits")
"""Carriers whose vapor burns; an unknown release or sealer is taken for one."""
CAST_CHEMISTRIES = {"urethane": "urethane", "epoxy": "epoxy", "polyester": "polyester", "gypsum": "gypsum"}


def flags(context: StepContext) -> frozenset[str]:
    """All words that hold for this job.

    Parameters
    ----------
    context : the order, the materials and the quantities.
    """
    words = {**_rubber(context), **_cast(context), **_shell(context), **_piece(context)}
    return frozenset(word for word, holds in words.items() if holds)


def holds(when: Iterable[str], words: frozenset[str]) -> bool:
    """Whether all words of a condition hold; "!word" asks that it does not.

    Parameters
    ----------
    when : the condition.
    words : the words that hold for this job.

    >>> holds(("powder", "!plinth"), frozenset({"powder"}))
    True
    """
    return all((word[1:] not in words) if word.startswith("!") else (word in words) for word in when)


def needs_patch_test(context: StepContext) -> bool:
    """Whether any judgment of compatibility asks for a test.

    Parameters
    ----------
    context : the judgments.
    """
    return any(finding.patch_test for finding in context.findings)


def _rubber(context: StepContext) -> dict[str, bool]:
    chemistry = context.rubber.chemistry
    return {
        "silicone": "silicone" in chemistry,
        "addition-cure": "addition" in chemistry,
        "condensation-cure": "condensation" in chemistry,
        "urethane-rubber": "urethane" in chemistry,
        "latex-rubber": "latex" in chemistry,
        "pigment": any(coat.pigment for coat in context.coats),
        "fill-in-coat": not context.mixes_for("fill"),
        "release-solvent": context.release is None or context.release.carrier in SOLVENTS,
        "sealer-solvent": context.sealer is None or context.sealer.carrier in SOLVENTS,
    }


def _cast(context: StepContext) -> dict[str, bool]:
    skin = context.resin.chemistry
    fill = context.backfill.chemistry if context.backfill else ""
    words = {f"{word}-skin": chemical in skin for word, chemical in CAST_CHEMISTRIES.items()}
    words |= {f"{word}-fill": chemical in fill for word, chemical in CAST_CHEMISTRIES.items()}
    words |= {
        "urethane-resin": "urethane" in skin or "urethane" in fill,
        "back-fill": bool(context.mixes_for("back-fill")),
        "several-skin-cups": len(context.mixes_for("skin")) > 1,
        "several-fill-cups": len(context.mixes_for("back-fill")) > 1,
        "wet-first": context.resin_pot_life_s.likely < LONG_POT_LIFE_S,
    }
    return words | _powder(context)


def _powder(context: StepContext) -> dict[str, bool]:
    tags = context.powder.tags if context.powder else ()
    return {
        "powder": context.powder is not None,
        "powder-temperature": context.powder is not None and context.powder.drying_temperature_c is not None,
        "metal-powder": "metal" in tags,
        "mineral-powder": context.powder is not None and "metal" not in tags,
        "aluminum-powder": context.powder is not None
        and "aluminum" in f"{context.powder.id} {context.powder.name}"
        and "metal" in tags,
    }


def _shell(context: StepContext) -> dict[str, bool]:
    printed = "printed" in context.shell.id
    return {
        "printed-shell": printed,
        "laid-shell": not printed,
        "plaster-shell": "plaster" in context.shell.tags,
        "fiber-shell": "fiber" in context.shell.id,
        "bandage": context.bandage is not None,
    }


def _piece(context: StepContext) -> dict[str, bool]:
    return {
        "plinth": context.volumes.plinth_height_mm > 0.0,
        "handles": context.volumes.handles > 0,
        "patch-test": needs_patch_test(context),
        "material-unknown": context.commission.original.material in {"", "unknown"},
        "edition": context.commission.edition.count > 1,
    }
