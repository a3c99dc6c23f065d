"""What is refused of a set of photos, each with its figure, its limit and the way out."""

from __future__ import annotations

from moldwright.errors import InputRefused
from moldwright.photos.told import PhotoReason
from moldwright.ways import Deed

FEWEST_PHOTOS = 24
WAY_OUT = {
    PhotoReason.SOFT: "Take them again with a steadier phone and more light, focused on the piece.",
    PhotoReason.DARK: "Take them again in more light.",
    PhotoReason.FEW_MARKERS: "Keep most of the sheet in every photo, its squares flat, clear and not covered.",
    PhotoReason.OTHER_SHEET: "Give only the photos on one sheet.",
    PhotoReason.OTHER_ZOOM: "Take all photos with one camera at one zoom, none cut.",
    PhotoReason.MOVED: "Lay the sheet flat and let nothing on it move between the photos.",
}
TAKE_MORE = "Take at least 24 photos, better two rings of 24."


def no_sheet(photos: int) -> InputRefused:
    """No photo shows a sheet of ours.

    Parameters
    ----------
    photos : how many were looked at.
    """
    remedy = "Stand the piece on the printed sheet, with most of its squares in every photo; the sheet is printed first"
    told = f"0 of {photos}"
    return InputRefused("no-sheet-in-photos", told, FEWEST_PHOTOS, "photos", remedy, Deed.PRINT_PHOTO_SHEET)


def bar_wrong(bar_mm: float, least_mm: float, most_mm: float) -> InputRefused:
    """The bar cannot be what was printed.

    Parameters
    ----------
    bar_mm : what was measured [mm].
    least_mm, most_mm : what it may be [mm].
    """
    remedy = "Measure the sheet's bar from end to end; print the sheet at its true size (100 %) if it is far off."
    return InputRefused("bar-out-of-range", bar_mm, f"{least_mm:g} to {most_mm:g}", "mm", remedy)


def too_few(left: int, reason: PhotoReason | None) -> InputRefused:
    """Too few photos are left.

    Parameters
    ----------
    left : how many.
    reason : why most of the others were dropped, None where there are no others.
    """
    remedy = WAY_OUT.get(reason, TAKE_MORE) if reason else TAKE_MORE
    return InputRefused("too-few-photos", left, FEWEST_PHOTOS, "photos", remedy)


def zoom_changed(others: int, most: int) -> InputRefused:
    """Many photos have another zoom than the rest.

    Parameters
    ----------
    others : how many.
    most : how many may be dropped for that.
    """
    remedy = "Give only the photos of one zoom, or take all again with one camera at one zoom, none cut."
    return InputRefused("zoom-changed", others, most, "photos", remedy)


def markers_small(across_px: float, least_px: float) -> InputRefused:
    """The markers are so small in the photos that poses from them are not worth much.

    Parameters
    ----------
    across_px : their usual breadth at the slant [px].
    least_px : what it should be [px].
    """
    remedy = "Use a larger sheet for a piece of this size, or go nearer so that piece and sheet fill the photo."
    return InputRefused("markers-too-small", round(across_px, 1), least_px, "px", remedy)


def sheet_bent(height_mm: float, most_mm: float) -> InputRefused:
    """The sheet does not lie flat.

    Parameters
    ----------
    height_mm : of the marker that lies farthest off the plane of all [mm].
    most_mm : the most that does [mm].
    """
    remedy = "Tape the sheet flat to a board and take the photos again."
    return InputRefused("sheet-bent", round(height_mm, 1), most_mm, "mm", remedy)


def sheet_misjoined(off_mm: float, most_mm: float) -> InputRefused:
    """Parts of the sheet do not lie where they should.

    Parameters
    ----------
    off_mm : of the marker that lies farthest from its place [mm].
    most_mm : the most that does [mm].
    """
    remedy = "Join the pages again at their marks, tape them flat, and take the photos again."
    return InputRefused("sheet-misjoined", round(off_mm, 1), most_mm, "mm", remedy)


def print_stretched(share: float, most: float) -> InputRefused:
    """The print is longer in one direction than in the other.

    Parameters
    ----------
    share : breadth over length against the drawing, less 1.
    most : the most that does.
    """
    remedy = "Print the sheet again without fitting it to the page, at its true size (100 %)."
    return InputRefused("print-stretched", round(100 * share, 2), 100 * most, "%", remedy)


def focal_doubtful(share: float, most: float) -> InputRefused:
    """The photos do not tell the lens well enough.

    Parameters
    ----------
    share : standard uncertainty of the focal length as a share.
    most : the most that does.
    """
    remedy = "Take photos from lower down and from high up, all round, piece and sheet filling the photo."
    return InputRefused("lens-doubtful", round(100 * share, 2), 100 * most, "%", remedy)


def ring_missing(photos: int, least: int, low: bool) -> InputRefused:
    """One of the two rings is not there.

    Parameters
    ----------
    photos : how many it has.
    least : how many it must have.
    low : whether it is the low one.
    """
    where = "about 20 degrees up, the phone a little above the sheet" if low else "about 50 degrees up"
    remedy = f"Take a ring of 24 photos from {where}, all round, nothing moved; add them to the others."
    return InputRefused("low-ring-missing" if low else "high-ring-missing", photos, least, "photos", remedy)
