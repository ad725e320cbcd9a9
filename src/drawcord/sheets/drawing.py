"""Lines and shapes on axes.

Axes here are placed by hand and span what they are told. So nothing is gained by `plot` and `add_patch`, which look at
all that is drawn to find out what to span: half the time that a sheet took to make.
"""

from collections.abc import Sequence
from typing import Any

from matplotlib.axes import Axes
from matplotlib.lines import Line2D
from matplotlib.patches import Patch


def draw_line(ax: Axes, xs: Sequence[float], ys: Sequence[float], **look: Any) -> Line2D:  # noqa: ANN401 - as `plot`
    """Draw a line through points; a `marker` stands at each."""
    line = Line2D(xs, ys, **look)
    ax.add_artist(line)
    return line


def draw_shape(ax: Axes, shape: Patch) -> None:
    """Draw a shape, cut off where the axes end."""
    ax.add_artist(shape)
