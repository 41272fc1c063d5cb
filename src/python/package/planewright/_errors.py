"""What is raised for a boat or a question that cannot be."""

from __future__ import annotations

from typing import NamedTuple


class Fault(NamedTuple):
    """One fault: what is wrong, what to write instead, and the line of the file, counted from 1."""

    problem: str
    cure: str
    line: int | None


class BoatError(ValueError):
    """A boat, a quantity or a table that cannot be used.

    ``faults`` has every one of them, in the order of the file; ``cure`` and ``line`` are those of
    the first.
    """

    faults: list[Fault]

    def __init__(self, name: str, faults: list[tuple[str, str, int | None]]) -> None:
        self.faults = [Fault(*fault) for fault in faults]
        told = [_told(fault) for fault in self.faults]
        super().__init__("\n".join([f"{name}:", *told] if name else told))
        self._made_of = (name, faults)

    @property
    def cure(self) -> str:
        """What to write instead."""
        return self.faults[0].cure

    @property
    def line(self) -> int | None:
        """Line of the file, counted from 1; none where something is missing altogether."""
        return self.faults[0].line

    def __reduce__(self) -> tuple:
        # It comes back from another process as it was raised there.
        return (type(self), self._made_of)


def _told(fault: Fault) -> str:
    at = f"line {fault.line}: " if fault.line else ""
    cure = f"\n  help: {fault.cure}" if fault.cure else ""
    return f"{at}{fault.problem}{cure}"
