"""From a figure to bytes: the same figure gives the same bytes on every run."""

from io import BytesIO

from matplotlib.figure import Figure

from drawcord.sheets.style import house_style


def to_svg(figure: Figure) -> bytes:
    """The figure as SVG, its text as outlines, without a date."""
    out = BytesIO()
    with house_style():
        figure.savefig(out, format="svg", metadata={"Date": None, "Creator": "drawcord"})
    return out.getvalue()


def to_png(figure: Figure, dpi: int = 150) -> bytes:
    """The figure as PNG at `dpi` dots per inch."""
    out = BytesIO()
    with house_style():
        figure.savefig(out, format="png", dpi=dpi, metadata={"Software": "drawcord"})
    return out.getvalue()
