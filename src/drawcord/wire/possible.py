"""What a physical number may be: refused with the reason and the value."""

import math


def above_zero(what: str, value: float, unit: str) -> None:
    """Raise ValueError unless `value` is a finite number above zero."""
    if not (math.isfinite(value) and value > 0):
        raise ValueError(f"{what} must be above 0 {unit}, not {value}")


def zero_or_more(what: str, value: float, unit: str) -> None:
    """Raise ValueError unless `value` is a finite number, zero or more."""
    if not (math.isfinite(value) and value >= 0):
        raise ValueError(f"{what} must be 0 {unit} or more, not {value}")


def one_or_more(what: str, count: int) -> None:
    """Raise ValueError unless there is at least one."""
    if count < 1:
        raise ValueError(f"{what} must be 1 or more, not {count}")


def named(what: str, text: str) -> None:
    """Raise ValueError if a name or code is empty."""
    if not text.strip():
        raise ValueError(f"{what} must not be empty")
