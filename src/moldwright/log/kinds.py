"""The kinds of events by the names that they are written under. A name, once released, is never used for another."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from moldwright.log import any_events, edition_events, lot_events, mold_events, piece_events, recipe_events, run_events
from moldwright.log.event import Body

KINDS: Mapping[str, type[Body]] = MappingProxyType(
    {
        "noted": any_events.Noted,
        "attached": any_events.Attached,
        "undone": any_events.Undone,
        "started": run_events.Started,
        "replanned": run_events.Replanned,
        "mold-registered": run_events.MoldRegistered,
        "ended": run_events.Ended,
        "begun": run_events.Begun,
        "done": run_events.Done,
        "left-out": run_events.LeftOut,
        "weighed": run_events.Weighed,
        "poured": run_events.Poured,
        "divided": run_events.Divided,
        "went-on": run_events.WentOn,
        "gelled": run_events.Gelled,
        "cup-temperature": run_events.CupTemperature,
        "shop-air": run_events.ShopAir,
        "gauged": run_events.Gauged,
        "scale-checked": run_events.ScaleChecked,
        "cast-measured": run_events.CastMeasured,
        "box-written": run_events.BoxWritten,
        "problem": run_events.Problem,
        "lot-received": lot_events.LotReceived,
        "lot-opened": lot_events.LotOpened,
        "lot-counted": lot_events.LotCounted,
        "lot-used": lot_events.LotUsed,
        "lot-moved": lot_events.LotMoved,
        "lot-papers": lot_events.LotPapers,
        "lot-discarded": lot_events.LotDiscarded,
        "lot-recalled": lot_events.LotRecalled,
        "mold-made": mold_events.MoldMade,
        "mold-inspected": mold_events.MoldInspected,
        "mold-measured": mold_events.MoldMeasured,
        "mold-stored": mold_events.MoldStored,
        "mold-retired": mold_events.MoldRetired,
        "edition-opened": edition_events.EditionOpened,
        "edition-resized": edition_events.EditionResized,
        "number-given": edition_events.NumberGiven,
        "piece-moved": edition_events.PieceMoved,
        "certificate-made": edition_events.CertificateMade,
        "recipe-kept": recipe_events.RecipeKept,
        "recipe-dropped": recipe_events.RecipeDropped,
        "piece-taken-in": piece_events.PieceTakenIn,
        "commission-changed": piece_events.CommissionChanged,
        "piece-planned": piece_events.PiecePlanned,
        "piece-put-away": piece_events.PiecePutAway,
        "piece-taken-back": piece_events.PieceTakenBack,
    }
)
NAMES: Mapping[type[Body], str] = MappingProxyType({kind: name for name, kind in KINDS.items()})
