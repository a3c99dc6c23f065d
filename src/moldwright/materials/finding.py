"""What is wrong or doubtful about a sheet."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.errors import InputRefused, Value


@dataclass(frozen=True, slots=True)
class SheetFinding:
    """One finding of a sheet's check. `severity`: "stop" (refused) or "doubt" (read the data sheet again);
    `where`: "rubber.my-rubber.pot_life_s"."""

    severity: str
    code: str
    where: str
    actual: Value
    limit: Value
    unit: str
    remedy: str

    def refusal(self) -> InputRefused:
        """The finding as an error that can be raised."""
        return InputRefused(self.code, self.actual, self.limit, self.unit, f"{self.where}: {self.remedy}")


def stop(code: str, where: str, actual: Value, limit: Value = None, unit: str = "", remedy: str = "") -> SheetFinding:
    """A finding that refuses the sheet."""
    return SheetFinding("stop", code, where, actual, limit, unit, remedy)


def doubt(code: str, where: str, actual: Value, limit: Value = None, unit: str = "", remedy: str = "") -> SheetFinding:
    """A finding that only questions the sheet."""
    return SheetFinding("doubt", code, where, actual, limit, unit, remedy)
