"""From a figure to bytes: the same figure gives the same bytes on every run."""

import re
from collections.abc import Sequence
from io import BytesIO

from matplotlib.figure import Figure

from drawcord.sheets.style import house_style

_PATH = re.compile(rb' d="[^"]*"')
_DIGITS = re.compile(rb"(\.\d\d)\d+")  # a hundredth of a point is finer than any printer
_PACKED = {"compress_level": 3}  # flat tints: half the time of the usual 6, and a tenth smaller


def to_svg(figure: Figure) -> bytes:
    """The figure as SVG, its text as text, without a date."""
    out = BytesIO()
    with house_style():
        figure.savefig(out, format="svg", metadata={"Date": None, "Creator": "drawcord"})
    return _PATH.sub(lambda path: _DIGITS.sub(rb"\1", path[0]), out.getvalue())


def to_png(figure: Figure, dpi: int = 150) -> bytes:
    """The figure as PNG at `dpi` dots per inch."""
    out = BytesIO()
    with house_style():
        figure.savefig(out, format="png", dpi=dpi, metadata={"Software": "drawcord"}, pil_kwargs=_PACKED)
    return out.getvalue()


def pictures(stem: str, figures: Sequence[Figure]) -> dict[str, bytes]:
    """Each figure as SVG and PNG by file name: `stem.svg`, or `stem-1.svg` and on if there are several."""
    files: dict[str, bytes] = {}
    for number, figure in enumerate(figures, start=1):
        name = f"{stem}-{number}" if len(figures) > 1 else stem
        files |= {f"{name}.svg": to_svg(figure), f"{name}.png": to_png(figure)}
    return files
