"""What is wrong or doubtful about a sheet."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.errors import InputRefused, Value


class SheetSeverity(StrEnum):
    """How grave a finding is: the sheet is refused, or its data sheet should be read again."""

    STOP = "stop"
    DOUBT = "doubt"


@dataclass(frozen=True, slots=True)
class SheetFinding:
    """One finding of a sheet's check. `where`: "rubber.my-rubber.pot_life_s"."""

    severity: SheetSeverity
    code: str
    where: str
    actual: Value
    limit: Value
    unit: str
    remedy: str

    def refusal(self) -> InputRefused:
        """The finding as an error that can be raised."""
        return InputRefused(self.code, self.actual, self.limit, self.unit, f"{self.where}: {self.remedy}")

    def bare(self) -> InputRefused:
        """The same without where it is, for who tells that beside it."""
        return InputRefused(self.code, self.actual, self.limit, self.unit, self.remedy)


def stop(code: str, where: str, actual: Value, limit: Value = None, unit: str = "", remedy: str = "") -> SheetFinding:
    """A finding that refuses the sheet.

    Parameters
    ----------
    code : a stable lower-case identifier.
    where : kind, id and key.
    actual : what was found.
    limit : what is allowed; None where there is no single limit.
    unit : of both, "" where they are words.
    remedy : what to do.
    """
    return SheetFinding(SheetSeverity.STOP, code, where, actual, limit, unit, remedy)


def doubt(code: str, where: str, actual: Value, limit: Value = None, unit: str = "", remedy: str = "") -> SheetFinding:
    """A finding that only questions the sheet.

    Parameters
    ----------
    code : a stable lower-case identifier.
    where : kind, id and key.
    actual : what was found.
    limit : what is usual; None where there is no single limit.
    unit : of both, "" where they are words.
    remedy : what to do.
    """
    return SheetFinding(SheetSeverity.DOUBT, code, where, actual, limit, unit, remedy)
