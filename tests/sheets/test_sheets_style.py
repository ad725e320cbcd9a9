from itertools import combinations

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from drawcord.coach.kinds import NATURE
from drawcord.sheets.style import LOOKS, house_style

BLANK = {"roof", "room"}  # never drawn in one view, and nothing is drawn under them


def grey(look):
    """A sample of a look as a grey copier sees it: luminance after ITU-R BT.601, from 0 to 1."""
    with house_style():
        figure = Figure(figsize=(1, 1), dpi=150)
        ax = figure.add_axes((0, 0, 1, 1))
        ax.set_axis_off()
        ax.add_patch(Rectangle((0, 0), 1, 1, facecolor=look.tint, edgecolor=look.ink, hatch=look.hatch or None))
        canvas = FigureCanvasAgg(figure)
        canvas.draw()
        rgb = np.asarray(canvas.buffer_rgba())[5:-5, 5:-5, :3] / 255
    return rgb @ np.array([0.299, 0.587, 0.114])


def texture(image):
    """Where the hatch is, whatever the tint: pixels clearly darker than the lightest common grey."""
    return image < np.median(image) - 0.04


def test_every_kind_of_space_has_a_look():
    assert set(LOOKS) == set(NATURE)


def test_hatches_differ():
    hatches = [look.hatch for kind, look in LOOKS.items() if kind not in BLANK]
    assert len(set(hatches)) == len(hatches)
    assert all(hatches)


def test_kinds_can_be_told_apart_without_colour():
    # Between any two, a fair share of pixels is hatch in one and ground in the other.
    textures = {kind: texture(grey(look)) for kind, look in LOOKS.items() if kind not in BLANK}
    for kind, found in textures.items():
        assert found.mean() > 0.01, kind
    for one, other in combinations(textures, 2):
        assert (textures[one] ^ textures[other]).mean() > 0.02, (one, other)


def test_text_stays_legible_on_every_tint():
    # Black on the darkest tint: contrast of at least 7 to 1, WCAG 2.1, 1.4.6 (from memory).
    for kind, look in LOOKS.items():
        channels = [int(look.tint[i : i + 2], 16) / 255 for i in (1, 3, 5)]
        linear = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
        luminance = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
        assert (luminance + 0.05) / 0.05 >= 7, kind
