"""A judgement about a place, in a plain sentence."""

from dataclasses import dataclass
from enum import IntEnum


class Severity(IntEnum):
    """How much a finding matters; the higher, the worse."""

    NOTICE = 1
    CAUTION = 2
    REFUSAL = 3


@dataclass(frozen=True, order=True)
class Finding:
    """A judgement: how bad, where (the id of a space, passage, cable or terminal), what, on whose word."""

    severity: Severity
    place: str
    sentence: str
    source: str
