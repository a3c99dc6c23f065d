"""What an original is known by, and how well: it goes beside the solid that stands for it, from the reading on."""

from __future__ import annotations

from dataclasses import dataclass, replace

from moldwright.photos.ask import Ask
from moldwright.photos.told import PhotoTold
from moldwright.plan.original import OriginalPlan, Source
from moldwright.ranges import NO_SPREAD, Range, Spread, likely_of


@dataclass(frozen=True, slots=True)
class Known:
    """What gave the form, what else narrowed the volume, how well the solid stands for the original, each photo,
    what to ask the maker."""

    source: Source = Source.SCAN
    also: tuple[Source, ...] = ()
    spread: Spread = NO_SPREAD
    photos: tuple[PhotoTold, ...] = ()
    asks: tuple[Ask, ...] = ()

    def packing(self, packing_ml: Range) -> Known:
        """The same, with what is packed over all solids that the original could be.

        Parameters
        ----------
        packing_ml : undercuts and crevices [ml].
        """
        return replace(self, spread=replace(self.spread, packing_ml=packing_ml))

    def told(self, measured: OriginalPlan) -> OriginalPlan:
        """The original as measured on its solid, with the ranges of what it is known by.

        Parameters
        ----------
        measured : plain numbers, as a scan has them.
        """
        return replace(
            measured,
            volume_ml=self.spread.volume_of(likely_of(measured.volume_ml)),
            area_cm2=self.spread.area_of(likely_of(measured.area_cm2)),
            source=self.source,
            also=self.also,
            photos=self.photos,
            asks=self.asks,
            spread=self.spread,
        )


SCANNED = Known()
