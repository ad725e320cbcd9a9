import csv
import io
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sheet_samples import candidate_of

from drawcord.files.tables import conductors
from drawcord.routes.route import Answer, Hole, NoRoute
from drawcord.sheets.holes import drill_from, from_edge, from_edges, holes_table, short
from drawcord.sheets.lengths import bore
from drawcord.sheets.spoken import compare_text, plan_text
from drawcord.sheets.tables import (
    DROP,
    candidates_table,
    columns,
    csv_bytes,
    figures_table,
    findings_table,
    legs_table,
    look_out,
    short_legs,
    text_table,
)
from drawcord.wire.drop import drop
from drawcord.words.units import parse_length


def as_dicts(rows):
    return [dict(zip(rows[0], row, strict=True)) for row in rows[1:]]


def test_lengths_in_a_table_for_spreadsheets_are_bare_millimetres(route):
    legs = as_dicts(legs_table(route))
    assert [leg["length [mm]"] for leg in legs] == ["1350", "2450", "1895"]
    assert sum(int(leg["length [mm]"]) for leg in legs) == route.criteria.length


def test_lengths_for_people_are_in_their_units(route):
    # 2450 mm are 96.457 in: 8 feet, and 1/2 to the eighth.
    assert as_dicts(legs_table(route, "m"))[1]["length"] == "2.45 m"
    assert as_dicts(legs_table(route, "in"))[1]["length"] == "8' 0 1/2\""


@given(st.integers(1, 400))
def test_a_bore_in_inches_is_never_too_small(mm):
    # Rounded to the nearest eighth a plug of 24 mm would be given 7/8", which are 22.2 mm.
    assert mm - 1 < parse_length(bore(mm, "in")) < mm + 25.4 / 8 + 1
    assert Fraction(parse_length(bore(mm, "in")) + 1) >= mm
    assert bore(24, "in") == '1"'
    assert (bore(24, "m"), bore(24, "mm"), bore(24, None)) == ("24 mm", "24 mm", "24")


def test_holes_are_where_a_tape_finds_them(coach, route):
    # linen: x 5980..6360, y 1905..2505; the wall's inside is at 45 and 2505, the roof's edge at 0 and 2550.
    roof, floor = as_dicts(holes_table(coach, route.holes))
    assert (roof["from front [mm]"], roof["across [mm]"], roof["across from"]) == ("6200", "350", "curb roof edge")
    assert roof["from the faces of [mm]"] == "linen: 160 aft, 295 street"
    assert (floor["from front [mm]"], floor["across [mm]"], floor["across from"]) == ("6200", "55", "curb wall inside")
    assert floor["from the faces of [mm]"] == "linen: 160 aft, 55 curb"
    assert [hole["standing"] for hole in (roof, floor)] == ["proven", "unproven"]


def test_both_faces_of_a_hole_have_a_height(coach, route):
    # The floor is 60 mm thick: the bore starts at the floor in the closet and ends under it, or the other way about.
    (down,) = as_dicts(holes_table(coach, route.holes[1:]))
    assert (down["above floor, near face [mm]"], down["above floor, far face [mm]"]) == ("0", "-60")
    hole = route.holes[1]
    up = replace(hole, between=hole.between[::-1], near=hole.far, far=hole.near)
    table = holes_table(coach, (up,))
    assert short(table)[1][5] == "-60 > 0"


def test_a_hole_is_drilled_from_where_one_gets_at_it(coach, route):
    # From the roof; from the room; from the closet with a door rather than from a void with none.
    roof, floor = route.holes
    assert drill_from(coach, roof) == "roof"
    assert drill_from(coach, floor) == "linen"
    assert drill_from(coach, replace(floor, between=("bay_c3", "linen"))) == "bay_c3"  # both open equally soon
    assert drill_from(coach, replace(floor, between=("shower_void", "linen"))) == "linen"
    assert drill_from(coach, replace(floor, between=("living", "linen"))) == "living"


def test_a_hole_through_a_wall_is_given_across_the_bore(coach):
    # Bored aft through linen's rear face at x = 6360, 300 mm from the curb-side face, 500 mm up.
    hole = Hole("H1", "inner", ("linen", "shower_void"), (6360, 2205, 500), (6380, 2205, 500), 24, "proven")
    (row,) = as_dicts(holes_table(coach, (hole,)))
    assert row["from the faces of [mm]"] == "linen: 300 street, 500 lower"


def test_a_hole_between_spaces_that_touch_is_given_across_the_face(coach):
    # Without any thickness the bore's direction is that of the face it lies in.
    hole = Hole("H1", "inner", ("linen", "shower_void"), (6360, 2205, 500), (6360, 2205, 500), 24, "proven")
    (row,) = as_dicts(holes_table(coach, (hole,)))
    assert row["from the faces of [mm]"] == "linen: 300 street, 500 lower"


def test_both_faces_of_a_hole_into_a_room_are_given_across_the_same_face(coach):
    # Into the room's middle through linen's street side, which no side of the room is: the room's face goes by linen's.
    point = (6170, 1905, 500)
    hole = Hole("H1", "inner", ("linen", "living"), point, point, 24, "proven")
    for face in (0, 1):
        told = [one.split()[-1] for one in from_edges(coach, hole, face, None).split(", ")]
        assert told[0] in ("forward", "aft")
        assert told[1] in ("lower", "upper")


def test_the_nearer_side_is_named(coach):
    assert from_edge(coach, 200, on_roof=True) == ("street roof edge", 200)
    assert from_edge(coach, 200, on_roof=False) == ("street wall inside", 155)
    assert from_edge(coach, 2500, on_roof=True) == ("curb roof edge", 50)


def test_the_short_table_of_holes_has_everything_but_the_standing(coach, route):
    header, first, _ = short(holes_table(coach, route.holes, "mm"))
    assert header[:3] == ["hole", "from > to", "diameter"]
    assert first[4] == "350 mm from curb roof edge"
    assert header[7] == "drill from"


def test_figures_come_with_their_working(route):
    first = as_dicts(figures_table(route))[0]
    assert first == {
        "figure": "voltage drop",
        "value": "0.84",
        "unit": "V",
        "formula": "22 A · 0.038 Ω",
        "source": "Ohm's law",
    }


def test_figures_have_no_more_digits_than_anybody_needs(route):
    # Ten digits of a resistance claim what nobody measured.
    ohms = replace(route.figures[0], value=0.07329691601, unit="Ω")
    assert as_dicts(figures_table(replace(route, figures=(ohms,))))[0]["value"] == "0.0732969"


def test_a_sheet_says_on_whose_word_a_finding_is(route):
    assert look_out(route)[1] == ["caution", "H1", "the rafter lies 30 mm from this hole [geometry]"]


def test_candidates_show_every_criterion(answer):
    first = as_dicts(candidates_table(answer))[0]
    assert first["length [mm]"] == "5695"
    assert (first["roof holes"], first["inner holes"], first["work [min]"]) == ("1", "1", "90")
    assert first["chance clear"] == "60 %"  # exp(-0.510826)
    assert first["unproven"] == "2"  # bay_c3, and the hole into it
    assert (first["drop [V]"], first["drop [%]"]) == ("0.84", "1.10")
    assert first["spaces"] == "roof > linen > bay_c3"


def test_a_data_cable_has_no_drop(answer, route):
    quiet = replace(answer, candidates=(candidate_of(replace(route, figures=())),))
    assert as_dicts(candidates_table(quiet))[0]["drop [V]"] == ""


def test_the_drop_is_found_under_the_names_it_is_given():
    # The table picks figures by name; this fails if those who make them rename them.
    copper = next(c for c in conductors() if c.label == "10 AWG" and c.metal == "tinned")
    assert set(DROP) <= {figure.name for figure in drop(22, 76, 4647, copper, 60)}


def test_findings_say_where(route):
    (row,) = as_dicts(findings_table(route))
    assert row == {
        "severity": "caution",
        "place": "H1",
        "finding": "the rafter lies 30 mm from this hole",
        "source": "geometry",
    }


def test_the_short_table_of_legs_marks_what_is_unproven(route):
    rows = short_legs(legs_table(route))
    assert rows[0] == ["leg", "space", "how covered", "length [mm]", "in sight"]
    assert [row[1] for row in rows[1:]] == ["roof", "linen", "bay_c3 (unproven)"]


def test_csv_survives_commas_quotes_and_line_breaks():
    rows = [["a", "b"], ['say "so", then', "two\nlines"], ["50 Ω", ""]]
    raw = csv_bytes(rows)
    assert list(csv.reader(io.StringIO(raw.decode(), newline=""))) == rows
    assert raw.startswith(b"a,b\r\n")


def test_columns_picks_by_name():
    assert columns([["a", "b", "c"], ["1", "2", "3"]], "c", "a") == [["c", "a"], ["3", "1"]]


def test_a_text_table_is_aligned():
    text = text_table([["name", "mm"], ["linen", "5"], ["bay", "1200"]])
    assert text == "name     mm\n-----  ----\nlinen     5\nbay    1200\n"


def test_a_wide_text_table_keeps_to_a_hundred_columns_and_loses_no_word():
    rows = [["what", "why", "n"], ["one " * 20, "two " * 40, "7"]]
    text = text_table(rows)
    assert max(map(len, text.splitlines())) <= 100
    assert (text.count("one"), text.count("two")) == (20, 40)


def test_a_word_longer_than_the_line_is_broken():
    text = text_table([["a", "b"], ["x" * 150, "y"]])
    assert max(map(len, text.splitlines())) <= 100
    assert text.count("x") == 150


@pytest.mark.parametrize("rows", [[["only", "heads"]], [["a"], [""]]])
def test_an_empty_text_table_is_still_a_table(rows):
    assert text_table(rows).splitlines()[0].split() == rows[0]


def test_a_comparison_says_all_that_a_choice_needs(coach, answer):
    text = compare_text(coach, answer, "m")
    assert max(map(len, text.splitlines())) <= 100
    whole = " ".join(text.split())
    for part in (
        "cable pv from junction.pv to controller.pv",
        "Winner pv-1: roof > linen > bay_c3.",
        "1.2 m less than the next",
        "Best at: length, minutes.",
        "Nobody has looked into: bay_c3, bay_c3~linen.",
        "Ask the owner first: 1 new hole through the roof.",
        "Caution, H1: the rafter lies 30 mm from this hole [geometry]",
        "Every route within 1.5 times the shortest was weighed.",
        "Left out: roof > shower: the owner excludes it",
        "pv-9, another descent",
    ):
        assert part in whole, part


def test_no_route_is_an_answer(coach):
    why = NoRoute(("linen: the owner excludes it",), ("let linen be used",), "No way leads from a to b.")
    none = Answer("pv", "a", "b", (), why, exact=True, guarantee="", left_out=())
    assert compare_text(coach, none).splitlines() == [
        "Class A coach, 11 m, three slides: cable pv from a to b",
        "",
        "NO ROUTE. No way leads from a to b.",
        "",
        "Closed by:",
        "  - linen: the owner excludes it",
        "",
        "The smallest change that opens a way:",
        "  - let linen be used",
    ]


def test_a_plan_says_first_what_each_cable_takes_and_leaves_the_others_to_the_comparison(coach, answer):
    # Who carries it out reads the table: one row a cable; and a cable without a way is said to have none.
    why = NoRoute(("linen: the owner excludes it",), (), "No way leads from a to b.")
    none = Answer("aerial", "a", "b", (), why, exact=True, guarantee="", left_out=())
    text = plan_text(coach, [none, answer], {"pv": answer.candidates[1]}, {})
    heads = [line.split()[0].rstrip(",") for line in text.splitlines() if line.startswith("pv-")]
    assert heads == ["pv-2", "pv-2"]  # its row, then what there is to say of it
    assert "NO ROUTE. No way leads from a to b." in text
    cut_short = replace(answer, exact=False)
    assert answer.guarantee not in text
    assert answer.guarantee in plan_text(coach, [cut_short], {"pv": answer.candidates[1]}, {})


def test_each_reason_is_told_once(coach, answer):
    # The winner's stands at the top; in its own paragraph it would be read a second time.
    one = answer.candidates[0]
    others = (replace(one, reason="It loses by so much."),)
    whole = " ".join(compare_text(coach, replace(answer, candidates=(one, *others))).split())
    assert whole.count(one.reason) == whole.count("It loses by so much.") == 1


def test_a_plan_tells_the_drop_of_a_circuit_and_no_second_one(coach, answer):
    # The amperes and volts of a job are a guess once the circuit knows its own; a cable without one keeps what it has.
    chosen = {"pv": answer.candidates[0]}
    drops = []
    for known in ({}, {"pv": 1.234}):
        row = next(line for line in plan_text(coach, [answer], chosen, known).splitlines() if line.startswith("pv-1 "))
        drops.append(row.split()[-2])
    assert drops == ["1.10", "1.23"]  # 1.1 % is the figure of the route


def test_nothing_is_called_compliant(coach, answer):
    # It can hurt people; what a table or a comparison shows is no permission.
    words = compare_text(coach, answer) + str(candidates_table(answer))
    assert "complian" not in words.lower()
