"""What labels say of the records: from what the records tell to plain texts."""

from __future__ import annotations

from moldwright.bench.cup_now import CupNow, PartNow
from moldwright.bench.run import RunState
from moldwright.log.edition_events import Series
from moldwright.log.mold_events import MoldState
from moldwright.plan.mixes import MeasuredBy, MixPart
from moldwright.plan.plan import Plan
from moldwright.records.editions.certificate import CertificateFacts
from moldwright.records.molds.read import MoldKnown
from moldwright.records.stock.shelf import OnShelf
from moldwright.records.told import day_of
from moldwright.sheets.label_text import LabelKind, LabelLine, LabelText
from moldwright.sheets.mix_cards import clock_text, mix_name
from moldwright.sheets.need_words import part_name
from moldwright.sheets.vessels import vessel_of, zeroed_once
from moldwright.sheets.words import mass_or_trace
from moldwright.units import show_mass, show_volume

TO_WRITE = "__________"
"""A line to write on."""


def lot_label(shelf: OnShelf) -> LabelText:
    """The label of a lot; of a sealed one with a line for the day on which it is opened.

    Parameters
    ----------
    shelf : the lot as it stands.
    """
    lot, received = shelf.lot, shelf.lot.received
    part = f"Part {lot.stuff.part}" if lot.stuff.part else ""
    recalled = "Recalled: not to be used" if lot.recalled is not None else ""
    keeps = f"{received.life_days} days" if received.life_days is not None and not lot.opened else ""
    lines = (
        _row("Keeps to", shelf.expires),
        _row("Opened", lot.opened or TO_WRITE),
        _row("Once open, keeps", keeps),
        LabelLine(f"Number {lot.number}" if lot.number else ""),
        LabelLine(f"From {received.supplier}" if received.supplier else ""),
        _row("Came in", received.on),
        LabelLine(lot.stored),
    )
    name = lot.stuff.name or lot.stuff.id
    title = name.removesuffix(f", part {lot.stuff.part}") if part and not recalled else name
    return LabelText(LabelKind.LOT, f"{title[:1].upper()}{title[1:]}", _told(*lines), lot.id, recalled or part)


def mold_label(known: MoldKnown, today: str) -> LabelText:
    """The label of a mold.

    Parameters
    ----------
    known : the mold with what is reckoned of it.
    today : the day to which its casts are counted, ISO 8601.
    """
    mold = known.mold
    state = "retired" if mold.retired is not None else "" if mold.state is MoldState.GOOD else mold.state.value
    lasts = "" if known.facts.lasts is None else f" of about {known.facts.lasts.likely:.0f}"
    lines = (
        LabelLine(mold.stored),
        _row("Registered" if mold.run is None else "Made", str(day_of(mold.made_ms))),
        _row("Casts", f"{known.facts.drawn}{lasts}"),
        _row("Shrink", _shrink(known)),
        LabelLine(mold.rubber),
        _row("Counted on", today),
    )
    return LabelText(LabelKind.MOLD, mold.name, _told(*lines), mold.id, state)


def _shrink(known: MoldKnown) -> str:
    """As measured, else as its plan expects it."""
    if known.shrink is not None:
        return f"{known.shrink.likely_pct:.2f} %, measured"
    return "" if known.planned_pct is None else f"{known.planned_pct.likely:.2f} %, planned"


def piece_label(facts: CertificateFacts) -> LabelText:
    """The label of a numbered cast.

    Parameters
    ----------
    facts : what is recorded of it.
    """
    lines = (
        _row("Cast", "" if facts.cast_ms is None else str(day_of(facts.cast_ms))),
        LabelLine(f"Mold: {facts.mold}" if facts.mold else ""),
        LabelLine(facts.material or ", ".join(facts.materials)),
    )
    return LabelText(LabelKind.CAST, facts.edition, _told(*lines), facts.piece, number_in_words(facts))


def number_in_words(facts: CertificateFacts) -> str:
    """A piece's number as it is read out: "17 of 50", "artist's proof 2 of 3".

    Parameters
    ----------
    facts : of the piece.
    """
    number = f"{facts.number} of {facts.of}"
    return number if facts.series is Series.NUMBERED else f"{facts.series} {number}"


def cup_label(plan: Plan, run: RunState, cup: CupNow, id_: str) -> LabelText:
    """The label of a cup that is still to be filled: its parts in their order, up to what the scale then reads.

    Parameters
    ----------
    plan : of the run.
    run : as it stands.
    cup : of the run.
    id_ : the run's; a cup has none of its own.
    """
    parts = [_part(part, now, plan) for part, now in zip(cup.mix.parts, cup.parts, strict=True)]
    after = f" after {cup.mix.starter}" if cup.mix.starter else ""
    clock = [] if cup.out_in_s is None else [LabelLine("On the work by", f"{clock_text(cup.out_in_s)}{after}")]
    cups = len(plan.mixes_for(cup.mix.for_))
    mark = f"{vessel_of(cup.mix, cups).capitalize()}{', mixed anew' if cup.ref.filling > 1 else ''}"
    started = run.frame.started
    beside = (
        LabelLine("" if cup.mix.marked else zeroed_once(cup.mix)),
        LabelLine(f"Cast {cup.ref.turn}" if cup.ref.turn else ""),
        LabelLine(started.name if started else ""),
    )
    lines = (*parts, *clock)
    return LabelText(LabelKind.CUP, mix_name(plan, cup.mix.for_), (*lines, *_told(*beside)), id_, mark, kept=len(lines))


def _part(part: MixPart, now: PartNow, plan: Plan) -> LabelLine:
    """A part as its card tells it: what the scale reads once it is in, or what a syringe or the cup's marks show."""
    name = part_name(part)
    match part.by:
        case MeasuredBy.STICK:
            return LabelLine(f"{name}, on a stick", mass_or_trace(now.target_g, plan.units, plan.scale_g))
        case MeasuredBy.SYRINGE:
            return LabelLine(name, f"{round(now.add_ml, 3):g} ml")
        case MeasuredBy.MARKS:
            return LabelLine(f"{name} up to", show_volume(part.reads_ml, plan.units))
        case _:
            return LabelLine(f"{name} up to", show_mass(now.reads_g, plan.units, plan.scale_g))


def _row(text: str, figure: str) -> LabelLine:
    return LabelLine(text if figure else "", figure)


def _told(*lines: LabelLine) -> tuple[LabelLine, ...]:
    """Those that say something."""
    return tuple(line for line in lines if line.text)
