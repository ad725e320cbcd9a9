from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg

from drawcord.sheets.grid import PAD, column_widths, table_height
from drawcord.sheets.page import new_page
from drawcord.sheets.style import house_style
from drawcord.sheets.text import line_height, text_width, wrap, write

WORDS = st.lists(st.text("abcdefgh ijk", min_size=1, max_size=12), min_size=1, max_size=12).map(" ".join)


@pytest.mark.parametrize("dpi", [72, 150, 300])
@pytest.mark.parametrize("bold", [False, True])
def test_text_is_drawn_as_wide_as_it_was_measured(dpi, bold):
    # Measured without a device, so that a page can be laid out once for paper and screen: within 2 %.
    text = "Measured 4426 mm, of it 392 mm in sight; H1: 13' 2 1/16\""
    with house_style():
        figure, page = new_page(upright=True)
        drawn = write(page, 10, 100, text, size=6, bold=bold)
        figure.set_dpi(dpi)
        width = drawn.get_window_extent(FigureCanvasAgg(figure).get_renderer()).width / dpi * 25.4
    assert text_width(text, 6, bold) == pytest.approx(width, rel=0.02)


def test_a_dollar_sign_is_a_dollar_sign():
    # Names come from files: nothing in them is markup.
    with house_style():
        figure, page = new_page(upright=True)
        write(page, 10, 100, "costs $5_0$ or {x} \\frac")
        FigureCanvasAgg(figure).draw()


@given(WORDS, st.floats(5, 60))
def test_wrapped_lines_fit_and_lose_nothing(text, width):
    lines = wrap(text, width, 6)
    assert all(text_width(line, 6) <= width for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


@pytest.mark.parametrize("width", range(8, 40, 2))
def test_a_length_is_never_broken(width):
    # `1 3/4"` broken before its fraction would be read as three quarters of an inch.
    length = '1\N{NO-BREAK SPACE}3/4"'
    assert any(length in line for line in wrap(f"from its face {length} aft", width, 6))


def test_columns_fill_the_width():
    rows = [["a", "long header here"], ["cell", "text"]]
    widths = column_widths(rows, 80)
    assert sum(widths) + PAD == pytest.approx(80)


def test_headers_wrap_before_cells_do():
    # 40 mm are too little for both headers in one line and enough for every cell.
    rows = [["distance from front", "distance from the side"], ["1200", "300"]]
    widths = column_widths(rows, 40)
    assert all(len(wrap(cell, width, 6)) == 1 for cell, width in zip(rows[1], widths, strict=True))
    assert table_height(rows, 40) > table_height(rows, 80)


def test_no_word_is_broken_while_another_column_can_wrap():
    rows = [["x", "y"], ["unbreakableword", "several short words that wrap"]]
    first, second = column_widths(rows, 35)
    assert first >= text_width("unbreakableword", 6)
    assert second < text_width(rows[1][1], 6)


@pytest.mark.parametrize("width", [20, 30, 50, 90])
def test_a_table_never_leaves_its_width(width):
    rows = [["leg", "space", "how covered"], ["1", "a_space_with_a_long_name", "clipped inside the cabinet"]]
    widths = column_widths(rows, width)
    assert sum(widths) + PAD * 2 <= width + 1e-6


def test_lines_stand_apart():
    heights = [line_height(size) for size in (6.0, 6.5, 7.5, 12.0)]
    assert all(low < high for low, high in pairwise(heights))
    assert heights[0] > 6 * 25.4 / 72
