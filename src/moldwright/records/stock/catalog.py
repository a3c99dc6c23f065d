"""What a lot may be of: the materials as the plans' lists call them, of the library, of the shop's plans and lots."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from moldwright.errors import InputRefused
from moldwright.log.lot_events import Stuff
from moldwright.materials import Library
from moldwright.materials.figure import Figure
from moldwright.materials.kinds import Additive, Coating, Consumable, Pigment, Powder, Shell, TwoPart
from moldwright.materials.kinds import Sheet as AnySheet
from moldwright.materials.nearest import nearest
from moldwright.materials.words import Chemistry, Tag
from moldwright.plan.mixes import PartKind, StuffKey
from moldwright.plan.needs import NeedPlan, NeedUnit
from moldwright.text.shown import short
from moldwright.ways import Deed


@dataclass(frozen=True, slots=True)
class Offer:
    """A material that a lot may be of, and what it is counted in; `density_g_ml`: as it is measured in milliliters,
    poured or loose, None: not known."""

    stuff: Stuff
    unit: NeedUnit = NeedUnit.GRAM
    density_g_ml: float | None = None


def offers(library: Library, needs: Iterable[NeedPlan] = (), lots: Iterable[Stuff] = ()) -> tuple[Offer, ...]:
    """Everything that a lot may be of, each once.

    Parameters
    ----------
    library : the sheets.
    needs : rows of plans.
    lots : of what there are lots already.
    """
    found: dict[StuffKey, Offer] = {}
    for kind in library.sheets:
        for sheet in library.all(kind):
            for offer in _of_sheet(sheet):
                found[offer.stuff.key] = offer
    for need in needs:
        found.setdefault(need_stuff(need).key, Offer(need_stuff(need), need.unit))
    for stuff in lots:
        found.setdefault(stuff.key, Offer(stuff))
    return tuple(found.values())


def need_stuff(need: NeedPlan) -> Stuff:
    """The material of a row of a plan's list, with a name for people.

    Parameters
    ----------
    need : the row.
    """
    if need.part in (PartKind.A, PartKind.B):
        return _part(need.kind, need.id, need.material, (str(need.part), need.called))
    colored = f"{need.part}, {need.color}" if need.part is not None and need.color else ""
    return Stuff(need.kind, need.id, need.material or colored or need.id.replace("-", " "))


def _part(kind: str, id_: str, material: str, called: tuple[str, str]) -> Stuff:
    """A part of a mix, called by its letter and the word of the trade where there is one."""
    part = " ".join(dict.fromkeys(filter(None, called)))
    return Stuff(kind, id_, f"{material}, part {part}", part)


def _of_sheet(sheet: AnySheet) -> Iterator[Offer]:
    match sheet:
        case TwoPart():
            yield from _parts(sheet)
        case Pigment():
            kind = PartKind.PIGMENT if Tag.SILICONE in sheet.tags else PartKind.TINT
            stuff = Stuff("", f"{kind}-{sheet.color}", f"{kind}, {sheet.color}")
            yield Offer(stuff, NeedUnit.GRAM, sheet.density_g_ml.likely)
        case Powder():
            yield Offer(_stuff(sheet), NeedUnit.GRAM, sheet.apparent_density_g_ml.likely)
        case Additive() | Coating():
            yield Offer(_stuff(sheet), NeedUnit.GRAM, _poured(sheet, sheet.density_g_ml))
        case Consumable():
            yield Offer(_stuff(sheet), NeedUnit(sheet.unit), _poured(sheet, sheet.density_g_ml))
        case Shell():
            yield Offer(_stuff(sheet), NeedUnit.GRAM if sheet.roll_width_mm is None else NeedUnit.EACH)
        case _:
            yield Offer(_stuff(sheet))


def _parts(sheet: TwoPart) -> Iterator[Offer]:
    """The parts as the lists call them; of gypsum, a powder, no density is known as it is measured."""
    sides = [(PartKind.A, sheet.part_a, sheet.density_a_g_ml)]
    if sheet.density_b_g_ml is not None and sheet.two_part:
        sides.append((PartKind.B, sheet.part_b, sheet.density_b_g_ml))
    for side, called, density in sides:
        stuff = _part(str(sheet.kind), f"{sheet.id}-{side.lower()}", sheet.name, (side, called))
        loose = side is PartKind.A and sheet.chemistry is Chemistry.GYPSUM
        yield Offer(stuff, NeedUnit.GRAM, None if loose else density.likely)


def _poured(sheet: AnySheet, density: Figure | None) -> float | None:
    """The density of what is poured; that of a grain is not that of a cup of powder."""
    return None if density is None or {Tag.DUST, Tag.MINERAL, Tag.SILICA} & set(sheet.tags) else density.likely


def _stuff(sheet: AnySheet) -> Stuff:
    return Stuff(str(sheet.kind), sheet.id, sheet.name)


def material(written: str, known: Iterable[Offer]) -> Offer:
    """The material that is meant: by its id, by kind and id, by its name, or by words that only one of them has.

    Parameters
    ----------
    written : what a person wrote.
    known : what it may be.

    Raises InputRefused ("unknown-material", "several-materials").
    """
    offered = list(known)
    asked = written.strip().casefold()
    for heard in (_by_id, _by_name, _by_words):
        hits = [offer for offer in offered if asked and heard(offer.stuff, asked)]
        if len(hits) == 1:
            return hits[0]
        if hits:
            told = " or ".join(f'"{each}"' for each in _told_apart([offer.stuff for offer in hits])[:6])
            raise InputRefused("several-materials", short(written), "one material", "", f"Write {told}.")
    stuffs = [offer.stuff for offer in offered]
    spelled = {name: stuff.name or stuff.id for stuff in stuffs for name in (stuff.id, stuff.name)}
    near = dict.fromkeys(spelled[hit] for hit in nearest(written, spelled))
    own = "One of your own that is in no list: tell what it is called."
    remedy = f"Did you mean {' or '.join(near)}? {own}" if near else f"{own} Else look what the library has"
    way = None if near else Deed.SEE_MATERIALS
    raise InputRefused("unknown-material", short(written), "a material of the lists", "", remedy, way)


def _told_apart(stuffs: Sequence[Stuff]) -> list[str]:
    """Their names where those tell them apart, else kind and id: each is taken when it is written."""
    names = [stuff.name for stuff in stuffs]
    return names if all(names) and len(set(names)) == len(names) else [f"{s.kind} {s.id}".strip() for s in stuffs]


def _by_id(stuff: Stuff, asked: str) -> bool:
    return asked in (stuff.id.casefold(), f"{stuff.kind} {stuff.id}".casefold())


def _by_name(stuff: Stuff, asked: str) -> bool:
    return asked == stuff.name.casefold()


def _by_words(stuff: Stuff, asked: str) -> bool:
    words = {*stuff.name.casefold().replace(",", " ").split(), *stuff.id.casefold().split("-")}
    return set(asked.replace(",", " ").split()) <= words
