"""The refusals that several readers share, each with its remedy."""

from __future__ import annotations

from moldwright.errors import InputRefused
from moldwright.scan.limits import Limits

REDUCE = "Reduce the scan in a mesh editor (1 million triangles is plenty) and export it again."
SAVE_AGAIN = "Export or copy the file again and check that it opens in a mesh viewer."


def truncated(found: float, needed: float, unit: str) -> InputRefused:
    """The file ends before what it announces.

    Parameters
    ----------
    found, needed : how much there is and how much is announced.
    unit : of both.
    """
    return InputRefused("file-truncated", found, needed, unit, f"The file ends too early. {SAVE_AGAIN}")


def damaged(what: str, wanted: str | None = None) -> InputRefused:
    """The file breaks the rules of its format.

    Parameters
    ----------
    what : what was found.
    wanted : what should be there, None where that is plain.
    """
    return InputRefused("file-damaged", what, wanted, "", SAVE_AGAIN)


def too_many(triangles: int, limit: int) -> InputRefused:
    """More triangles than a scan may have.

    Parameters
    ----------
    triangles : how many there would be.
    limit : how many there may be.
    """
    return InputRefused(
        "too-many-triangles", triangles, limit, "triangles", "Reduce the scan in a mesh editor; 1 million is plenty."
    )


def no_triangles(what: str = "no triangles") -> InputRefused:
    """The file is sound, but holds no surface.

    Parameters
    ----------
    what : what is there instead.
    """
    return InputRefused(
        "zero-triangles", what, "at least 1 triangle", "", "Export the surface as a mesh of triangles or polygons."
    )


def index_out_of_range(index: int, vertices: int) -> InputRefused:
    """A face names a vertex that is not there.

    Parameters
    ----------
    index : what the face names.
    vertices : how many there are.
    """
    return InputRefused("index-out-of-range", index, vertices, "vertices", SAVE_AGAIN)


def not_supported(what: str, instead: str) -> InputRefused:
    """A sound file in a variant that is not read.

    Parameters
    ----------
    what : the variant.
    instead : one sentence that says what to do.
    """
    return InputRefused("variant-not-read", what, None, "", instead)


def external(what: str) -> InputRefused:
    """The file wants another file or address to be opened.

    Parameters
    ----------
    what : the file or address that is wanted.
    """
    return InputRefused("external-reference", what, "all in one file", "", "Export one file with everything inside.")


def file_too_large(size: int, limits: Limits) -> InputRefused:
    """More bytes than a file may have.

    Parameters
    ----------
    size : of the file [bytes].
    limits : what reading may cost.
    """
    return InputRefused("file-too-large", size, limits.file_bytes, "bytes", REDUCE)
