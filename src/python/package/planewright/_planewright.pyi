from os import PathLike
from typing import Any, Sequence

__version__: str
CAUTION: str
DRAWS: int
FEWEST_DRAWS: int
MOST_DRAWS: int
RUN_DRAWS: int
SEED: int

Quantities = str | Sequence[str]

class Boat:
    def __init__(self, **tables: Any) -> None: ...
    @staticmethod
    def read(path: str | PathLike[str]) -> Boat: ...

    @staticmethod
    def parse(text: str) -> Boat: ...

    @property
    def name(self) -> str: ...

    @property
    def text(self) -> str: ...

    @property
    def warnings(self) -> list[str]: ...

    @property
    def condition(self) -> str: ...

    @property
    def conditions(self) -> list[str]: ...

    def in_condition(self, name: str) -> Boat: ...

    def run(
        self,
        speeds: Quantities | None = None,
        deflections: Quantities | None = None,
        *,
        method: str | None = None,
        model: str | None = None,
        friction: str | None = None,
        roughness: float | None = None,
    ) -> list[dict[str, Any]]: ...

    def size(
        self, *, draws: int = DRAWS, seed: int = SEED, model: str | None = None
    ) -> dict[str, Any]: ...

    def doubt(
        self, deflection: str | None = None, *, draws: int = RUN_DRAWS, seed: int = SEED
    ) -> dict[str, Any]: ...

def flag_meanings() -> dict[str, str]: ...

def run_table(table: Any, speeds: Quantities | None, deflections: Quantities | None, **asked: Any) -> Any: ...
def size_table(table: Any, **asked: Any) -> Any: ...
