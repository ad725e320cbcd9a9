"""Vectors of integers, each in one Python integer, so that one subtraction compares all entries."""

from collections.abc import Sequence
from operator import lshift

import numpy as np

from drawcord.routes.least import Array

WORD = 59  # bits of a 64-bit integer that leave room for sums and signs, and for `FAR`


class Packing:
    """Fields of a Python integer, the first on top, a clear guard bit above each.

    Packed vectors add up as vectors do, and they sort in lexicographic order. With fence = f | guard,
    a vector v is nowhere larger than f exactly if (fence - v) & guard == guard: a field that is larger
    borrows from its own guard bit, and from nowhere else.
    """

    def __init__(self, largest: Sequence[int]) -> None:
        """`largest`: the most that each field will ever hold."""
        self.width = [most.bit_length() for most in largest]
        self.shift = [sum(self.width[i + 1 :]) + len(largest) - 1 - i for i in range(len(largest))]
        self.guard = sum(1 << shift + width for shift, width in zip(self.shift, self.width, strict=True))

    def pack(self, vector: Sequence[int]) -> int:
        """One integer for the vector; fields past its end hold 0."""
        return sum(map(lshift, vector, self.shift))

    def unpack(self, packed: int) -> tuple[int, ...]:
        """The vector again."""
        fields = zip(self.shift, self.width, strict=True)
        return tuple(packed >> shift & (1 << width) - 1 for shift, width in fields)

    def words(self, rows: Array) -> tuple[Array, list[int]]:
        """Many vectors, packed as far as 64-bit integers go: the words of each, and their shifts.

        A packed vector is the sum of its words, each shifted; the first word is on top, so that words sort
        as vectors do. Entries may be negative.
        """
        words: list[Array] = []
        shifts: list[int] = []
        for column, shift, width in reversed(list(zip(rows.T, self.shift, self.width, strict=False))):
            if shifts and shift + width - shifts[-1] <= WORD:
                words[-1] = words[-1] + (column << shift - shifts[-1])
            else:
                words.append(column)
                shifts.append(shift)
        return np.stack(words[::-1], axis=1), shifts[::-1]


def joined(words: Sequence[int], shifts: Sequence[int]) -> int:
    """The packed vector that these words make up."""
    return sum(map(lshift, words, shifts))
