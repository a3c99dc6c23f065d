"""The words of one plan for screens: what each step says is put into words once."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from threading import Lock

from moldwright.materials.pictograms import pictograms, statements_of_rule
from moldwright.plan.cautions import Caution
from moldwright.plan.ids import MixId, StepId
from moldwright.plan.mixes import MixKind, MixPart
from moldwright.plan.plan import Plan
from moldwright.plan.quantity import Dimension
from moldwright.plan.steps import StepPlan
from moldwright.sheets.bench_words import BenchWords
from moldwright.sheets.need_words import part_name
from moldwright.sheets.step_tables import step_tables
from moldwright.sheets.step_texts import Numbered, cautions_of, numbered, step_texts
from moldwright.sheets.walls import ALL, Layer, walls
from moldwright.text.harmless import harmless
from moldwright.told.bench.view_step import CautionShown, StepShown, WallLayer
from moldwright.words.speaker import speaker

CODES = (Dimension.CODES, Dimension.CODES_IN_FULL)
FIRST_AID = "skin-eyes"
"""The caution that tells what to do where something gets on the skin or into an eye."""
PLANS_AT_HAND = 8


class ScreenWords(BenchWords):
    """The words of a plan's run on a screen."""

    @cached_property
    def places(self) -> Mapping[StepId, Numbered]:
        """Each step with its number and its place in the wall."""
        return {each.step.id: each for each in numbered(self.plan)}

    @cached_property
    def _steps(self) -> dict[StepId, StepShown]:
        return {}

    def shown(self, step: StepId) -> StepShown:
        """What a step says.

        Parameters
        ----------
        step : of the plan.
        """
        if step not in self._steps:
            self._steps[step] = self._shown(self.places[step])
        return self._steps[step]

    def _shown(self, its: Numbered) -> StepShown:
        told = step_texts(self.plan, self.wording, its)
        own = cautions_of(self.plan, its.step)
        cautions = tuple(map(self._caution, own))
        return StepShown(
            number=its.number,
            title=told["title"],
            time=told["time"],
            group=its.place.group,
            at_hand=told["at_hand"],
            before=tuple(told["before"]),
            do=tuple(told["do"]),
            write=tuple(told["write"]),
            cautions=cautions,
            pictograms=pictograms(code for each in own for code in _codes(each)),
            first_aid=self.first_aid if any(each.hazard for each in cautions) else "",
            lift=told["lift"],
            wait=told["wait"],
            waits_within=told["within"],
            tables=step_tables(self.plan, its.step),
        )

    def _caution(self, caution: Caution) -> CautionShown:
        signs = pictograms(_codes(caution))
        gear = tuple(each.value for each in caution.gear)
        said, aid = self.wording.caution(caution), caution.rule == FIRST_AID
        return CautionShown(caution.severity.value, said, caution.hazard, signs, gear, aid)

    @cached_property
    def first_aid(self) -> str:
        """What the plan says first of skin and eyes; "" where it says nothing."""
        own = (each for each in self.plan.cautions if each.rule == FIRST_AID)
        return next((self.wording.caution(each) for each in own), "")

    @cached_property
    def walls(self) -> Mapping[str, tuple[WallLayer, ...]]:
        """The layers of every wall."""
        return {name: tuple(map(_layer, layers)) for name, layers in walls(self.plan).items()}

    @cached_property
    def alike(self) -> Mapping[tuple[str, int], tuple[StepPlan, ...]]:
        """The steps by the layer of the wall that they make; those that stand behind all layers are left out."""
        found: dict[tuple[str, int], list[StepPlan]] = {}
        for each in self.places.values():
            if each.place.layer != ALL:
                found.setdefault((each.place.wall, each.place.layer), []).append(each.step)
        return {place: tuple(steps) for place, steps in found.items()}

    @cached_property
    def _kinds(self) -> Mapping[MixId, MixKind]:
        return {mix.id: mix.for_.kind for mix in self.plan.mixes}

    def material(self, part: MixPart) -> str:
        """What a part is taken from, as the list of needs calls it.

        Parameters
        ----------
        part : of a mix.
        """
        own = (need.material for need in self.plan.needs if need.stuff == part.stuff and need.material)
        return harmless(next(own, part_name(part)))

    def kind_of(self, mix: MixId) -> MixKind:
        """What a cup is for.

        Parameters
        ----------
        mix : of the plan.
        """
        return self._kinds[mix]

    def figure(self, mass_g: float) -> tuple[str, str]:
        """A mass as the scale shows it: its number and its unit.

        Parameters
        ----------
        mass_g : mass [g].
        """
        number, _, unit = self.mass(mass_g).rpartition(" ")
        return number, unit


def _codes(caution: Caution) -> tuple[str, ...]:
    """The hazard statements that a caution quotes, or that are usual of what it is about."""
    told = (str(each.value).split() for each in caution.quantities if each.measure in CODES)
    return (*(code for codes in told for code in codes), *statements_of_rule(caution.rule))


def _layer(layer: Layer) -> WallLayer:
    return WallLayer(layer.key, layer.name, layer.sub, layer.color, layer.pattern, layer.share, layer.notches)


_AT_HAND: dict[tuple[int, str], ScreenWords] = {}
_LOCK = Lock()


def screen_words(plan: Plan) -> ScreenWords:
    """The words of a plan, kept of the few plans that a shop works by at a time.

    Parameters
    ----------
    plan : the very value by which a run goes: an equal one has words of its own, as has each language.
    """
    with _LOCK:
        key = id(plan), speaker().language
        words = _AT_HAND.get(key)
        if words is None or words.plan is not plan:
            while len(_AT_HAND) >= PLANS_AT_HAND:
                del _AT_HAND[next(iter(_AT_HAND))]
            words = _AT_HAND[key] = ScreenWords(plan)
        return words
