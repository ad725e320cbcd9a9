"""From a figure to bytes: the same figure gives the same bytes on every run."""

from io import BytesIO

from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure

from drawcord.sheets.style import house_style


def to_svg(figure: Figure) -> bytes:
    """The figure as SVG, its text as outlines, without a date."""
    out = BytesIO()
    with house_style():
        FigureCanvasSVG(figure).print_svg(out, metadata={"Date": None, "Creator": "drawcord"})
    return out.getvalue()


def to_png(figure: Figure, dpi: int = 150) -> bytes:
    """The figure as PNG at `dpi` dots per inch."""
    out = BytesIO()
    with house_style():
        figure.set_dpi(dpi)
        FigureCanvasAgg(figure).print_png(out, metadata={"Software": "drawcord"})
    return out.getvalue()
