"""Metric gland threads and the clearance holes that they need."""

from typing import NamedTuple

SOURCE = "EN 60423, clearance holes of metric threads (+0.2/-0.4 mm)"
PITCH = 1.5  # of all these threads [mm]
TOO_SMALL, TOO_LARGE = 0.4, 0.2  # how far a clearance hole may be off [mm]


class Gland(NamedTuple):
    """A thread and the clearance hole bored for it [mm]."""

    thread: str
    hole: float


GLANDS = (
    Gland("M12", 12.5),
    Gland("M16", 16.5),
    Gland("M20", 20.5),
    Gland("M25", 25.5),
    Gland("M32", 32.5),
    Gland("M40", 40.5),
)


def gland_for(plug: float, cores: float = 0.0, wall: float = 0.0) -> Gland | None:
    """The smallest thread whose hole passes the `plug` and whose inside passes the `cores`; None beyond M40.

    All in mm. The hole counts as bored at the lower end of its tolerance; the inside is the root of the thread less a
    `wall` on each side.
    """
    return next(
        (one for one in GLANDS if one.hole - TOO_SMALL >= plug and root(one) - 2 * wall >= cores),
        None,
    )


def root(gland: Gland) -> float:
    """The diameter at the root of the thread [mm]: ISO 724, d3 = d - 1.22687 P (from memory), P = 1.5 mm."""
    return float(gland.thread[1:]) - 1.22687 * PITCH
