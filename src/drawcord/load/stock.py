"""Cable that cuts can come from."""

from dataclasses import dataclass

Demand = tuple[tuple[int, int], ...]  # each length wanted [mm] and how often, the longest first


@dataclass(frozen=True)
class Stock:
    """`count` equal reels or off-cuts of `length` [mm]; `bought` if they are still in a store."""

    id: str
    length: int
    count: int = 1
    bought: bool = False


@dataclass(frozen=True)
class Cuts:
    """What a model found: each piece of stock opened with its cuts [mm], longest first.

    `aims`: for each aim what was reached, and the least that nobody can go below.
    """

    opened: tuple[tuple[Stock, tuple[int, ...]], ...]
    aims: tuple[tuple[int, int], ...]
