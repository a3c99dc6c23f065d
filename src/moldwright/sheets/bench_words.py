"""How acts, cups, times and findings of a run are called at the bench."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from moldwright.bench.acts import Act
from moldwright.bench.cup_now import CupNow
from moldwright.bench.findings import Found, RunFinding
from moldwright.bench.now import WaitEnds
from moldwright.log.run_events import CupRef
from moldwright.plan.ids import StepId
from moldwright.plan.mixes import MixKind, MixPart, MixPlan, PartKind
from moldwright.plan.plan import Plan
from moldwright.plan.steps import StepPlan
from moldwright.sheets.need_words import part_name
from moldwright.sheets.step_texts import numbered, step_texts
from moldwright.sheets.vessels import vessel_of
from moldwright.sheets.wording import Wording
from moldwright.text.harmless import harmless
from moldwright.units import show_duration, show_mass, show_volume
from moldwright.words.marked import words
from moldwright.words.speaker import say

MINUTE_MS, HOUR_MS, DAY_MS = 60_000, 3_600_000, 86_400_000
FOUND: Mapping[Found, str] = {
    Found.NOT_STARTED: words("The run's start has not come from its bench yet."),
    Found.STARTED_TWICE: words("The run was started twice; the first start counts."),
    Found.UNKNOWN_ACT: words("An entry is about {act}, which the plan has not: it counts in nothing."),
    Found.UNKNOWN_CUP: words("An entry is about {cup}, which the plan has not: it counts in nothing."),
    Found.UNKNOWN_PART: words("{part} was weighed into {cup}, which takes none."),
    Found.UNKNOWN_COAT: words("A thickness was gauged of {coat}, which the plan has not."),
    Found.WRONG_ORDER: words("{act} was begun before {need} was done."),
    Found.TOO_SOON: words(
        "{act} was begun {begun.after} after {need}, before {wait.low} were over: look whether it holds."
    ),
    Found.TOO_LATE: words(
        "{act} was begun {begun.after} after {need}; it was to begin within {window.closes}. Do as the "
        "cautions of {need} say."
    ),
    Found.PART_ORDER: words("{cup}: {part} went in before its turn."),
    Found.PART_OVER: words("{cup}: {part.in} of {part} is in, planned {part.planned}."),
    Found.PART_SHORT: words("{cup}: {part.in} of {part} was in when it was used, wanted {part.target}."),
    Found.PART_MISSING: words("{cup}: no weighing of {part} is written."),
    Found.RATIO_OFF: words(
        "{cup}: its ratio is off by {ratio.off}, {ratio.within} is allowed. It may stay soft: mark where it "
        "went, feel it when it should be cured."
    ),
    Found.POURED_LATE: words(
        "{cup} came onto the work {poured.after} after its parts met, {cup.out_by} was the limit: look for "
        "strings, folds and bubbles."
    ),
    Found.CUP_PAST: words(
        "{cup} is past the {cup.out_by} within which it had to be on the work. Feel it: if it strings or is "
        "warm, use no more of it (x)."
    ),
    Found.AFTER_POURING: words("{part} was weighed into {cup} after it was on the work."),
    Found.THICKNESS_OFF: words("{coat} is {thickness.least} to {thickness.most}, planned {coat.thickness}."),
    Found.SCALE_OFF: words(
        "The scale shows {scale.reads} for a weight of {scale.weight}: {scale.off} off. Level it, warm it "
        "up, zero it, check again before you weigh."
    ),
    Found.CUP_TOO_LARGE: words(
        "{cup} gels in this air within {cup.out_in}, mixing and laying it takes {cup.takes}: cool the shop "
        "and the parts, or split it into {cup.cups} cups."
    ),
    Found.MIX_OUT_OF_RANGE: words("{cup} has {cup.temperature}: no time can be told for that. Look at it yourself."),
    Found.OUT_OF_RANGE: words("The air has {air.temperature}: no time can be told for that. Warm or cool the shop."),
    Found.DAMP_AIR: words("The air has {air.humidity} humidity."),
}
"""What each finding says; figures by their names, what it is about by its kind."""
TOO_LARGE_ALONE = words(
    "{cup} gels in this air within {cup.out_in}, mixing and laying it takes {cup.takes}: cool the shop and the parts."
)
"""The same of a cup that is too small to be split."""


def clock(at_ms: int, now_ms: int) -> str:
    """When, as a watch shows it; on another day with the day before it.

    Parameters
    ----------
    at_ms : when.
    now_ms : the moment.
    """
    at, now = datetime.fromtimestamp(at_ms / 1000), datetime.fromtimestamp(now_ms / 1000)
    return f"{at:%H:%M}" if at.date() == now.date() else f"{at:%a} {at.day} {at:%b} {at:%H:%M}"


def ends(when: WaitEnds, now_ms: int) -> str:
    """When something is over: the likely time first.

    Parameters
    ----------
    when : its ends.
    now_ms : the moment.
    """
    likely, low, high = (clock(at, now_ms) for at in (when.likely_ms, when.low_ms, when.high_ms))
    return likely if low == high else say("{likely} ({low} to {high})", likely=likely, low=low, high=high)


@dataclass(frozen=True)
class BenchWords:
    """The words of one plan's run."""

    plan: Plan

    @cached_property
    def wording(self) -> Wording:
        """The reader's units and digits."""
        return Wording(self.plan.units, self.plan.scale_g)

    @cached_property
    def numbers(self) -> Mapping[StepId, int]:
        """The numbers of the steps as the sheets print them."""
        return {step.id: number for number, step in enumerate(self.plan.steps, start=1)}

    def step(self, step: StepPlan) -> dict[str, object]:
        """What a step prints, as on its sheet.

        Parameters
        ----------
        step : of the plan.
        """
        return step_texts(self.plan, self.wording, numbered(self.plan)[self.numbers[step.id] - 1])

    def title(self, step: StepPlan) -> str:
        """What a step is called.

        Parameters
        ----------
        step : of the plan.
        """
        return harmless(self.wording.line(step.title, step.quantities))

    def step_name(self, step: StepId) -> str:
        """A step by its number and title: "step 7, Put on the release agent".

        Parameters
        ----------
        step : of the plan.
        """
        planned = self.plan.steps[self.numbers[step] - 1]
        return say("step {number}, {title}", number=self.numbers[step], title=self.title(planned))

    def act(self, act: Act) -> str:
        """An act by its number: "step 36 of cast 2".

        Parameters
        ----------
        act : which.
        """
        number = self.numbers.get(act.step)
        told = say("step {number}", number=number) if number else say('a step "{step}"', step=harmless(act.step))
        return say("{told} of cast {turn}", told=told, turn=act.turn) if act.turn else told

    def cup(self, ref: CupRef) -> str:
        """A cup: "coat 1", "skin of cast 2, cup 1 of 2, mixed the 2nd time".

        Parameters
        ----------
        ref : which.
        """
        mix = next((each for each in self.plan.mixes if each.id == ref.mix), None)
        if mix is None:
            return say('a cup "{mix}"', mix=harmless(ref.mix))
        told = [self._for(mix) + (say(" of cast {turn}", turn=ref.turn) if ref.turn else "")]
        count = len(self.plan.mixes_for(mix.for_))
        told += [vessel_of(mix, count)] if count > 1 else []
        told += [say("filling {filling}", filling=ref.filling)] if ref.filling > 1 else []
        return ", ".join(told)

    def _for(self, mix: MixPlan) -> str:
        coats = {coat.id: number for number, coat in enumerate(self.plan.glove.coats, start=1)}
        coat = coats.get(mix.for_.coat) if mix.for_.coat is not None else None
        match mix.for_.kind:
            case MixKind.COAT:
                return say("coat {coat}", coat=coat)
            case MixKind.FILL:
                return say("packing after coat {coat}", coat=coat)
            case MixKind.SHELL:
                return say("shell {piece}", piece=mix.for_.piece)
            case kind:
                return say(kind.value)

    def part(self, cup: CupNow | None, kind: PartKind) -> str:
        """A part as the sheet calls it.

        Parameters
        ----------
        cup : in which, None for any.
        kind : of which kind.
        """
        parts: tuple[MixPart, ...] = cup.mix.parts if cup is not None else ()
        return next((harmless(part_name(part)) for part in parts if part.kind == kind), say(kind.value))

    def mass(self, mass_g: float) -> str:
        """A mass as the scale shows it.

        Parameters
        ----------
        mass_g : mass [g].
        """
        return show_mass(mass_g, self.plan.units, self.plan.scale_g)

    def volume(self, volume_ml: float) -> str:
        """A volume.

        Parameters
        ----------
        volume_ml : volume [ml].
        """
        return show_volume(volume_ml, self.plan.units)

    def found(self, finding: RunFinding) -> str:
        """A finding in a sentence.

        Parameters
        ----------
        finding : which.
        """
        told = {quantity.name: self.wording.quantity(quantity) for quantity in finding.quantities}
        coats = {coat.id: number for number, coat in enumerate(self.plan.glove.coats, start=1)}
        if finding.act is not None:
            told["act"] = self.act(finding.act)
        if finding.need is not None:
            told["need"] = self.act(finding.need)
        if finding.cup is not None:
            told["cup"] = self.cup(finding.cup)
        told["part"] = say(finding.part.value) if finding.part is not None else say("any part")
        told["coat"] = (
            say("coat {coat}", coat=coats[finding.coat])
            if finding.coat in coats
            else harmless(finding.coat or say("a coat"))
        )
        alone = finding.code is Found.CUP_TOO_LARGE and "cup.cups" not in told
        text = say(TOO_LARGE_ALONE if alone else FOUND[finding.code])
        for name, figure in told.items():
            text = text.replace(f"{{{name}}}", figure)
        text = text[:1].upper() + text[1:]
        caution = next((each for each in self.plan.cautions if each.id == finding.caution), None)
        return f"{text} {self.wording.caution(caution)}" if caution is not None else text


def lasting(ms: float) -> str:
    """A time that is left or past, never more than there is.

    Parameters
    ----------
    ms : how long [ms].

    >>> lasting(250_400), lasting(59_999)
    ('4:10', '0:59')
    """
    return show_duration(max(0, int(ms / 1000)))
