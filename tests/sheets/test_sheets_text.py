from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg

from drawcord.sheets.grid import PAD, column_widths, row_heights
from drawcord.sheets.lines import lines, words
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
        drawn = write(page, 10, 100, "costs $5_0$ or {x} \\frac")
        figure.set_dpi(72)
        width = drawn.get_window_extent(FigureCanvasAgg(figure).get_renderer()).width
        halves = [write(page, 10, 90, part).get_window_extent().width for part in ("costs $5_0", "$ or {x} \\frac")]
    # As markup the dollars would vanish and the line would be shorter than its two halves, which are none.
    assert width == pytest.approx(sum(halves), rel=0.03)


@given(WORDS, st.floats(5, 60))
def test_wrapped_lines_fit_and_lose_nothing(text, width):
    lines = wrap(text, width, 6)
    assert all(text_width(line, 6) <= width for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


@pytest.mark.parametrize("width", range(8, 40, 2))
def test_a_length_is_never_broken(width):
    # `1 3/4"` broken before its fraction would be read as three quarters of an inch.
    length = '1 3/4"'
    assert any(length in line for line in wrap(f"from its face {length} aft", width, 6))


KEPT = (
    "148 mm",
    "1.2 m",
    "2 %",
    "90 min",
    "8' 0 7/16\"",
    '3/4"',
    "0.84 V",
    "10 AWG",
    "50 Ω",
    "250 aft",
    '2" street',
    "6 mm²",
)


@pytest.mark.parametrize("kept", KEPT)
def test_a_line_breaks_neither_on_paper_nor_on_a_terminal_within(kept):
    # Whatever the width, a number stands on one line with its unit, its fraction or the face it is counted from.
    text = f"the cable runs {kept} and then {kept} further on"
    for width in range(len(kept) + 1, 60):
        assert "\n".join(lines(text, width)).count(kept) == 2
    for width in range(int(text_width(kept, 6)) + 1, 50):
        assert sum(line.count(kept) for line in wrap(text, width, 6)) == 2


@given(WORDS)
def test_words_make_up_the_text(text):
    assert " ".join(words(text)) == text


def test_terminal_lines_carry_no_odd_spaces():
    # A search for `148 mm` finds it.
    found = lines("it lies 148 mm from here", 10, "  ")
    assert found == ["  it lies", "  148 mm", "  from", "  here"]


def test_columns_fill_the_width():
    rows = [["a", "long header here"], ["cell", "text"]]
    widths = column_widths(rows, 80)
    assert sum(widths) + PAD == pytest.approx(80)


def test_headers_wrap_before_cells_do():
    # 40 mm are too little for both headers in one line and enough for every cell.
    rows = [["distance from front", "distance from the side"], ["1200", "300"]]
    widths = column_widths(rows, 40)
    assert all(len(wrap(cell, width, 6)) == 1 for cell, width in zip(rows[1], widths, strict=True))
    assert sum(row_heights(rows, 40)) > sum(row_heights(rows, 80))


@settings(deadline=None)
@given(st.lists(st.tuples(WORDS, WORDS, WORDS), min_size=1, max_size=3), st.integers(30, 120))
def test_no_other_widths_give_the_longest_cell_fewer_lines(table, width):
    # Against some 400 other ways to share out the room, less a millimetre: slow, obvious and a little coarse.
    rows = [["h", "h", "h"], *map(list, table)]

    def most(widths):
        return max(len(wrap(cell, wide, 6)) for row in table for cell, wide in zip(row, widths, strict=True))

    def breaks(widths):
        cells = [pair for row in rows for pair in zip(row, widths, strict=True)]
        return any(text_width(word, 6, bold=True) > wide for cell, wide in cells for word in words(cell))

    room = width - 2 * PAD - 1
    splits = [(a, b, room - a - b) for a in range(2, int(room)) for b in range(2, int(room) - a)]
    fitting = [split for split in splits[:: max(1, len(splits) // 400)] if not breaks(split)]
    assert most(column_widths(rows, width)) <= min(map(most, fitting), default=99)


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
