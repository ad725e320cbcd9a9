"""Vectors of small integers, each in one Python integer, so that one subtraction compares them all."""

from collections.abc import Sequence
from operator import lshift


class Packing:
    """Fields of a Python integer, the first on top; a clear guard bit above each.

    Packed vectors add as vectors do, and as integers they sort in lexicographic order. With
    F = f | guard, a vector v is nowhere larger than f exactly if (F - v) & guard == guard: a field
    that is larger borrows from its own guard bit, and from nowhere else.
    """

    def __init__(self, largest: Sequence[int]) -> None:
        """`largest`: the most that each field will ever hold."""
        widths = [most.bit_length() for most in largest]
        self.shift = tuple(sum(widths[i + 1 :]) + len(widths) - 1 - i for i in range(len(widths)))
        self.mask = tuple((1 << width) - 1 for width in widths)
        self.guard = sum(1 << shift + width for shift, width in zip(self.shift, widths, strict=True))

    def pack(self, vector: Sequence[int]) -> int:
        """One integer for the vector. Entries may be negative where only sums need to fit."""
        return sum(map(lshift, vector, self.shift))

    def unpack(self, packed: int) -> tuple[int, ...]:
        """The vector again."""
        return tuple(packed >> shift & mask for shift, mask in zip(self.shift, self.mask, strict=True))
