"""What is refused, in four families. Each error tells the actual value, the limit and the remedy."""

from __future__ import annotations

Value = float | int | str | None


class MoldwrightError(Exception):
    """A refusal that a person can act on.

    Parameters
    ----------
    code : a stable lower-case identifier, words joined by "-".
    actual : what was found.
    limit : what is allowed (None where there is no single limit).
    unit : the unit of `actual` and `limit`, "" where they are words.
    remedy : one sentence that says what to do.
    """

    exit_code = 1

    def __init__(self, code: str, actual: Value, limit: Value = None, unit: str = "", remedy: str = "") -> None:
        self.code = code
        self.actual = actual
        self.limit = limit
        self.unit = unit
        self.remedy = remedy
        super().__init__(self.sentence())

    @property
    def family(self) -> str:
        return type(self).__name__

    def sentence(self) -> str:
        """The refusal in one line: `code: actual unit (limit: limit unit). Remedy.`"""
        unit = f" {self.unit}" if self.unit else ""
        limit = "" if self.limit is None else f" (limit: {self.limit}{unit})"
        return f"{self.code}: {self.actual}{unit}{limit}. {self.remedy}".strip()

    def as_dict(self) -> dict[str, Value]:
        return {
            "family": self.family,
            "code": self.code,
            "actual": self.actual,
            "limit": self.limit,
            "unit": self.unit,
            "remedy": self.remedy,
        }

    def __reduce__(self) -> tuple[type, tuple[Value, ...]]:
        return type(self), (self.code, self.actual, self.limit, self.unit, self.remedy)


class InputRefused(MoldwrightError):
    """The file, the commission or a sheet cannot be used as it is."""

    exit_code = 3


class NoSafePlan(MoldwrightError):
    """The input is sound, but no plan that works was found."""

    exit_code = 4


class ComputationFailed(MoldwrightError):
    """An invariant of the computation broke: a fault of the software, not of the user."""

    exit_code = 5


class RecordConflict(MoldwrightError):
    """Two records contradict each other."""

    exit_code = 6
