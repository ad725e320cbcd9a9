"""The sheet for the day: paper and phone say what the plan says, and show every text literally."""

import io
import os
import re
import subprocess
import sys
from dataclasses import replace
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

import pytest
from pypdf import PdfReader

from drawcord.coach.box import Point
from drawcord.coach.kinds import NATURE
from drawcord.coach.van import Van
from drawcord.files.home import layouts
from drawcord.files.stock import stocked
from drawcord.load.bring import bring
from drawcord.load.gear import gear
from drawcord.load.holes import register
from drawcord.load.jointed import jointed
from drawcord.plan.card import card
from drawcord.sheets.day import day
from drawcord.sheets.day_glance import glance
from drawcord.sheets.day_html import to_html
from drawcord.sheets.day_parts import Blanks, Day, Grid, Labels, Picture, Section, Steps, Words
from drawcord.sheets.day_pdf import WIDTH, to_pages, to_pdf, widths
from drawcord.sheets.holes import from_edges
from drawcord.sheets.lengths import bore, drill, length
from drawcord.sheets.look_spoken import look_text, routes
from drawcord.sheets.style import SMALL
from drawcord.sheets.tables import figure_named
from drawcord.sheets.walk import moves
from drawcord.words.finding import Severity
from drawcord.words.units import format_minutes
from planned import planned

JOBS = (
    "class-a-three-slides/job-mid-roof",
    "fifth-wheel/job-front-bay",
    "truck-camper/job-rear-junction",
    "van/job-garage",
)
HOSTILE = (
    '#panic("x") *bold* _it_ $x^2$ @ref <label> // gone',
    "<script>alert(1)</script> &amp; <b>b</b>",
    "]] #[ = heading",
    "W" * 200,
    "\\u{41} #sys.version ~ -- ---",
)


class _Text(HTMLParser):
    """What a reader of a page sees; `asked` is all that the page would fetch or run."""

    def __init__(self):
        super().__init__()
        self.said, self.asked, self.tags = [], [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.asked += [value for name, value in attrs if name in ("src", "href") or name.startswith("on")]

    def handle_data(self, data):
        self.said.append(data)


def _bare(text):
    """Text without the spaces, and the places to break, that a page puts in or leaves out."""
    return re.sub(r"[\s\u200b]", "", text)


@cache
def _pages(data):
    return [_bare(page.extract_text()) for page in PdfReader(io.BytesIO(data)).pages]


def _pdf(data):
    return "".join(_pages(data))


@cache
def _html(data):
    page = _Text()
    page.feed(data.decode())
    return page, _bare("".join(page.said))


@pytest.fixture(scope="module", params=JOBS)
def made(request):
    _, compared, plan = planned(request.param)
    first = card(plan, [order for order, _ in compared])
    load = bring([plan], stocked(None))
    beside = gear([plan], load, stocked(None))
    plan = jointed(plan, load, stocked(None))
    sheet = day(plan, first, load, beside)
    return plan, sheet, to_pdf(sheet), to_html(sheet), first, load


def _called(plan, hole):
    """The name of a route's hole in the joint plan, by where both lie."""
    lies = {frozenset([one.near, one.far]): one.id for one in plan.together.holes}
    return lies[frozenset([hole.near, hole.far])]


def test_a_hole_bears_one_name_on_the_whole_sheet(made):
    # The picture of all cables calls it T2: so do the picture and the words of each cable, the register and the labels.
    plan, sheet = made[:2]
    beside = {section.title.partition(": ")[0]: block for section in sheet.sections for block in section.blocks
              if hasattr(block, "steps")}  # fmt: skip
    for name, chosen in plan.chosen.items():
        drawn = set(re.findall(rb'id="[a-z]+-hole-([TH]\d+)"', beside[name].picture.svg))
        assert {one.decode() for one in drawn} == {_called(plan, hole) for hole in chosen.route.holes}
    texts = [line for section in sheet.sections for block in section.blocks if isinstance(block, Labels)
             for text in block.texts for line in text]  # fmt: skip
    named = {found for line in texts for found in re.findall(r" at ([TH]\d+), ", line)}
    assert named == {hole.id for hole in plan.together.holes}


def _facts(plan):
    """What has to be on the sheet, written here from the plan itself and not by the sheet's own code."""
    units = plan.coach.units
    facts = [plan.coach.job.name]
    for name, chosen in plan.chosen.items():
        route, cable = chosen.route, plan.coach.job.cables[name]
        facts += [cable.start, cable.end, chosen.id]
        facts += [length(route.cut_length[2], units), bore(cable.largest_plug, units)]
        facts += [format_minutes(route.criteria.seconds), *route.unproven]
        facts += [length(joint.at, units) for joint in route.joints]
    for one in register(plan, plan.coach.shop.parts):
        facts += [" > ".join(one.hole.between), f"{one.bore:g} mm", one.fitting, *one.behind, one.id]
    for one in plan.circuits.circuits if plan.circuits else ():
        facts += [one.chosen.cable.section, one.chosen.type_id]
        facts += [f"{one.chosen.drop.volts.value:.2f} V, {one.chosen.drop.percent.value:.2f} %"]
        if one.device:
            facts += [f"{one.device.volts:g} V", f"{one.device.amperes:g} A"]
            facts += [f"{one.device.interrupting_amperes / 1000:g} kA"] if one.device.interrupting_amperes else []
        facts += [f"{reading.value:.4g} {reading.unit}" for reading in one.readings]
    if plan.circuits and plan.circuits.strings:
        most = plan.circuits.fitted.controller.highest_volts
        for one in plan.circuits.strings.judged.trackers:
            cold = one.cold.with_margin.value
            facts += [f"{cold:.1f} V", f"{most:g} V", f"{most - cold:.1f} V"]
    return facts


def test_pdf_and_page_say_what_the_plan_says(made):
    # Every figure of the plan that a crew needs stands in both, in text that a machine reads back.
    plan, _, pdf, html = made[:4]
    on_paper, on_phone = _pdf(pdf), _html(html)[1]
    facts = [_bare(fact) for fact in _facts(plan)]
    assert len(facts) > 40
    assert [fact for fact in facts if fact not in on_paper] == []
    assert [fact for fact in facts if fact not in on_phone] == []


def test_sections_stand_in_the_order_of_the_day(made):
    # Figures before cautions, cautions before the first picture, labels on their own page at the end.
    sheet = made[1]
    titles = [section.title for section in sheet.sections]
    assert titles[:3] == ["At a glance", "Before you start", "Where to look first"]
    rest = ["Cut list", "Holes", "One-line diagram", "Readings", "The owner's consent", "Assumed, never measured"]
    places = [titles.index(title) for title in rest if title in titles]
    assert len(places) >= 5
    assert places == sorted(places)
    assert titles[-1] == "Labels to print"
    assert sheet.sections[-1].fresh


def test_card_stands_on_the_sheet_in_its_own_words(made):
    # What `drawcord look` says at the desk is what the crew reads on site: each sentence of it, on paper and phone.
    plan, _, pdf, html, first, _ = made
    said = look_text(first, plan.coach.units)
    ends = re.split(r"(?m)^ *(?:clear|blocked): |\n\n|\n {0,2}(?=\S)", said)
    sentences = [_bare(one) for one in ends if _bare(one)]
    assert len(sentences) >= 2 + len(plan.chosen)
    on_paper, on_phone = _pdf(pdf), _html(html)[1]
    assert [one for one in sentences if one not in on_phone] == []
    assert [one for one in sentences if one not in on_paper] == []


def test_every_route_of_the_card_is_shown_in_a_picture_or_in_words(made):
    # A helper told to take route 4 has to find it: the id beside it goes through the same spaces, or its legs are told.
    plan, sheet = made[:2]
    looking = next(section for section in sheet.sections if section.title == "Where to look first")
    rows = next(block.rows for block in looking.blocks if isinstance(block, Grid) and block.rows[0][1] == "shown as")
    offered = {one.id: one for answer in plan.answers for one in (*answer.candidates, *plan.chosen.values())}
    told = {block.title: block.lines for section in sheet.sections for block in section.blocks
            if isinstance(block, Steps)}  # fmt: skip
    assert len(rows) > 1
    for sentence, name in rows[1:]:
        called, _, rest = sentence.partition(": ")
        spaces = rest.partition(";")[0].split(" > ")
        if name in offered:
            assert spaces == list(offered[name].route.spaces)
            continue
        lines = next(lines for title, lines in told.items() if title.startswith(f"{called}, cut "))
        assert len(lines) == len(spaces)
        assert all(f"in {space} (" in line for space, line in zip(spaces, lines, strict=True))


def _grids(sheet, title):
    """The tables of a section, by what stands over them."""
    section = next(section for section in sheet.sections if section.title == title)
    return {block.title: block.rows for block in section.blocks if isinstance(block, Grid)}


def test_cuts_come_from_the_vans_stock_in_the_order_to_make_them(made):
    # Counted from the load itself: each cut with its reel and cable, in order, and what remains of the reel.
    plan, sheet, _, _, _, load = made
    grids, units, job = _grids(sheet, "Cut list"), plan.coach.units, plan.coach.job.job
    for title, bought in (("Cut, in this order", False), ("Buy, and cut in this order", True)):
        expected = []
        for source in load.cuts:
            if source.bought == bought:
                left = f"{length(source.left, units)}{'' if source.kept else ', scrap'}"
                expected.append(([(length(cut.length, units), cut.run) for cut in source.cuts], source.stock, left))
        told = []
        for stock, _, _, cut, run, left, box in grids.get(title, [[]])[1:]:
            count, _, each = cut.partition(" × ")
            told += [([], stock, "")] if stock else []
            told[-1] = (told[-1][0] + [(each, f"{job}: {run}")] * int(count), told[-1][1], left)
            assert box == "☐"
        assert told == expected
    pieces = grids["Pieces of each core, from its start on"]
    assert [row[0] for row in pieces[1:]] == [one.run.cable for one in load.pieces]


def test_joints_are_those_of_the_pieces_with_their_reasons(made):
    # What is joined on site is what is in the van, not the longest piece that the planner had in mind.
    plan, sheet, _, _, _, load = made
    rows = _grids(sheet, "Joints").get("", [[]])[1:] if any(one.joints for one in load.pieces) else []
    told = [(row[0], row[2], row[3], row[5]) for row in rows]
    at = [(one, joint, why) for one in load.pieces for joint, why in zip(one.joints, one.reasons, strict=True)]
    units = plan.coach.units
    assert told == [(one.run.cable, length(joint.at, units), joint.space, why) for one, joint, why in at]


def test_a_fallback_is_cut_and_joined_as_the_van_allows(made):
    # Not by the longest piece of the job file: no joint of it lies in a chase or void, and the length is surely enough.
    plan, sheet = made[:2]
    sections = {one.title: one for one in sheet.sections}
    shown = 0
    for answer in plan.answers:
        for other in answer.candidates:
            assert not any(NATURE[plan.coach.spaces[joint.space].kind].hidden for joint in other.route.joints)
            section = sections.get(f"{answer.cable}: if that is blocked, {other.id}")
            if section:
                names, values = next(block.rows for block in section.blocks if isinstance(block, Grid))
                said = dict(zip(names, values, strict=True))
                shown += 1
                assert said["cut, a core"] == f"{length(other.route.cut_length[2], plan.coach.units)} at most"
                assert "%" not in said["unproven places"]
                assert said["joints"].startswith(str(len(other.route.joints)))
                warned = " ".join(line for block in section.blocks if isinstance(block, Words) for line in block.lines)
                for one in plan.circuits.circuits:
                    if one.cable == answer.cable:
                        assert "plan again before cutting for this" in warned
                        lost = figure_named(other.route, "voltage drop of supply").value
                        assert (lost > 100 * one.purpose.limit.value) == (f"This one loses {lost:.2f} %" in warned)
    assert shown


def test_the_fallback_that_is_drawn_is_one_to_which_the_card_leads(made):
    # Whom the card sends another way finds that way drawn, if there is a candidate that goes it.
    plan, sheet, _, _, first, _ = made
    led = {(route.cable, route.spaces) for route, _ in routes(first, plan.coach.units) if route}
    titles = {one.title for one in sheet.sections}
    for answer in plan.answers:
        own = set(plan.chosen[answer.cable].route.spaces)
        named = [one for one in answer.candidates if (answer.cable, one.route.spaces) in led]
        others = [one.id for one in named if set(one.route.spaces) != own]
        assert not others or f"{answer.cable}: if that is blocked, {others[0]}" in titles


def test_what_is_unproven_for_the_sake_of_other_cables_is_named_beside_the_card(made):
    # The card lets each cable go its own best way: where the plan takes another, nobody is told to look nowhere.
    plan, sheet, _, _, first, _ = made
    looking = next(section for section in sheet.sections if section.title == "Where to look first")
    told = " ".join(line for block in looking.blocks if isinstance(block, Words) for line in block.lines)
    for name, one in plan.chosen.items():
        asked = [place.id for group in first.lookings for place in group.knowing.places if name in group.knowing.cables]
        more = [place for place in one.route.unproven if place not in asked]
        sentence = f"{name} goes, for the sake of the other cables, by {' and '.join(more)}, unproven"
        assert (sentence in told) == bool(more)


def test_no_fallback_passes_for_planned_beside_the_other_cables(made):
    # The pictures go by each cable's own candidates: one may lie where another cable of the plan must not come.
    plan, sheet = made[:2]
    others = [one for one in sheet.sections if "if that is blocked" in one.title or "other routes of" in one.title]
    assert others
    assert plan.together
    for one in others:
        assert any(
            "Not held against" in line for block in one.blocks if isinstance(block, Words) for line in block.lines
        )


def test_without_stock_each_cable_has_its_length(tmp_path: Path):
    # A shop that keeps no stock.yaml gets lengths to cut, and joints where its longest piece ends.
    _, compared, plan = planned(JOBS[1])
    assert stocked(tmp_path) is None
    sheet = day(plan, card(plan, [order for order, _ in compared]))
    rows = _grids(sheet, "Cut list")[""][1:]
    units = plan.coach.units
    most = {name: length(one.route.cut_length[2], units) for name, one in plan.chosen.items()}
    assert {row[0]: row[3] for row in rows} == most
    joints = sum(len(one.route.joints) for one in plan.chosen.values())
    assert len(_grids(sheet, "Joints").get("", [[]])[1:] if joints else []) == joints


def test_cable_that_is_missing_stops_the_day_at_the_first_glance(made):
    # A van with nothing in it: the figures at the top say so, before anybody drives.
    plan = made[0]
    empty = Van.model_validate({"format": 1, "keep": 500}, context={"unit": "mm"})
    load = bring([plan], empty)
    assert not load.enough
    strong = [block for block in glance(plan, load).blocks if isinstance(block, Words) and block.strong]
    said = " ".join(line for block in strong for line in block.lines)
    assert all(one.sentence in said for one in load.findings if one.severity is Severity.REFUSAL)


def test_what_cables_share_and_keep_apart_is_on_paper(made):
    # Who is told nothing clips the data cable to the mains: each pair to keep apart, and each shared hole.
    plan, _, pdf, html = made[:4]
    for text in (_pdf(pdf), _html(html)[1]):
        for one in plan.together.apart:
            assert _bare(f"{' and '.join(one.cables)} in") in text
            assert _bare(one.rule) in text
        for hole in plan.together.holes:
            assert len(hole.cables) == 1 or _bare(f"{hole.id}, one {hole.kind} hole of") in text


def test_each_bore_is_drilled_once_and_in_one_size(made):
    # A hole that three cables share is one row with all three; legs, glance and register say the same size.
    plan, sheet, _, _, _, _ = made
    entries = register(plan, plan.coach.shop.parts)
    grids = _grids(sheet, "Holes")
    for title in ("Where", "What goes into each"):
        assert sorted(row[0] for row in grids[title][1:]) == sorted(one.id for one in entries)
    drilled = {row[0]: row[3] for row in grids["Where"][1:]}
    shared = plan.together.holes if plan.together else ()
    assert sorted(len(one.cables) for one in entries) == sorted(len(one.cables) for one in shared) or not shared
    walks = [block.steps.lines for section in sheet.sections for block in section.blocks if hasattr(block, "steps")]
    for lines, name in zip(walks, sorted(plan.chosen), strict=True):
        bored = r"hole (T\d+) \(⌀ (.*?), [^,]* from the front"
        said = dict(found for line in lines for found in re.findall(bored, line))
        assert said == {entry.id: drilled[entry.id] for entry in entries if name in entry.cables}


def test_both_faces_of_a_hole_are_found_with_a_tape(made):
    # From two edges of the space that each opens into, as holes.csv has them; on the roof from its front and edge.
    plan, sheet = made[:2]
    entries = {one.id: one for one in register(plan, plan.coach.shop.parts)}
    for row in _grids(sheet, "Holes")["Where"][1:]:
        entry = entries[row[0]]
        near, far = (from_edges(plan.coach, entry.hole, face, plan.coach.units) for face in (0, 1))
        told = [far] if near.startswith("roof: ") else [near] if far.startswith("roof: ") else [near, far]
        assert row[7] == "; ".join(told)
        assert ("roof edge" in row[5]) == (len(told) == 1)


def test_what_the_van_lacks_for_a_hole_is_told_on_the_sheet(made):
    # Each size of bit is there with what takes it, or with what is lacking.
    plan, sheet = made[:2]
    rows = _grids(sheet, "Holes")["Bits and saws"][1:]
    needed = gear([plan], made[5], stocked(None)).tools
    assert len(rows) == len(needed) > 0
    for row, one in zip(rows, needed, strict=True):
        assert f"{one.need.diameter:g} mm" in row[1]
        assert row[2] == (one.bit or f"LACKING: {one.lacking}")


# 1" is 25.4 mm, exactly; the clearance hole of an M20 thread may be 20.1 to 20.7 mm (EN 60423), and 13/16" is 20.64 mm.
@pytest.mark.parametrize(
    ("limits", "units", "said"),
    [
        ((25.5, 25.1, 25.7), "in", '1" (25.5 mm)'),
        ((20.5, 20.1, 20.7), "in", '13/16" (20.5 mm)'),
        ((32.5, 32.1, 32.7), "in", '1 9/32" (32.5 mm)'),
        ((20.5, 20.1, 20.7), "mm", "20.5 mm"),
        ((20.5, 20.1, 20.7), "m", "20.5 mm"),
        ((12.1, 12.01, 12.2), "in", "12.1 mm"),
    ],
)
def test_a_bit_of_an_inch_shop_is_an_inch_bit_within_the_holes_limits(limits, units, said):
    # The coarsest fraction that bores no less and no more than will do; where there is none, no inch is said.
    assert drill(*limits, units) == said


def test_work_is_corrected_by_the_shops_own_jobs_on_a_line_of_its_own(made):
    # Three jobs that took half as long again: the plan's time, what they add, and the sum; else only the plan's.
    plan, sheet, _, _, _, load = made
    assert sheet.sections[0] == glance(plan, load)
    assert len(_grids(sheet, "At a glance")["Work"]) == 2
    past = replace(plan.coach.shop.history, work_jobs=3, work_ratio=1.5)
    coach = replace(plan.coach, shop=replace(plan.coach.shop, history=past))
    block = next(one for one in glance(replace(plan, coach=coach), load).blocks if getattr(one, "title", "") == "Work")
    rows = block.rows[1:]
    planned, more, expected = (int(row[1].strip("+ ").removesuffix(" min")) for row in rows)
    assert "3 jobs" in rows[1][0]
    assert abs(more - planned / 2) <= 1
    assert abs(expected - planned - more) <= 1


def test_the_owner_signs_for_just_those_holes_that_the_register_says(made):
    # A hole through the roof without its owner's consent is the worst surprise of a day; each is asked by one name.
    plan, sheet = made[:2]
    rows = _grids(sheet, "The owner's consent")[""][1:]
    asked = {hole for row in rows for hole in re.findall(r"T\d+", row[1])}
    consents = {row[0]: row[-1] for row in _grids(sheet, "Holes")["What goes into each"][1:]}
    assert asked == {hole for hole, consent in consents.items() if consent.startswith("owner to sign")}
    roof = [hole for hole in plan.together.holes if hole.kind == "roof"]
    assert {hole.id for hole in roof} <= asked
    assert all(any(hole.id in row[1] and name in row[0] for row in rows) for hole in roof for name in hole.cables)


def test_each_leg_names_its_hole(made):
    # A helper who reads "no new hole" must not stand before a wall: the words agree with the register.
    plan, sheet = made[:2]
    steps = [block.steps.lines for section in sheet.sections for block in section.blocks if hasattr(block, "steps")]
    assert len(steps) == len(plan.chosen)
    for lines, (_, chosen) in zip(steps, sorted(plan.chosen.items()), strict=True):
        assert len(lines) == len(chosen.route.legs)
        named = [found for line in lines for found in re.findall(r"hole (T\d+) ", line)]
        assert named == [_called(plan, hole) for hole in chosen.route.holes]


def test_type_in_pictures_is_no_smaller_than_eight_points(made):
    # An A4 sheet on a roof is read at arm's length: what is drawn at 6 points is printed a third larger.
    pictures = [
        picture
        for section in made[1].sections
        for block in section.blocks
        for picture in [getattr(block, "picture", block)]
        if isinstance(picture, Picture)
    ]
    assert len(pictures) > len(made[0].chosen)
    for picture in pictures:
        drawn = float(re.search(rb'<svg[^>]* width="([\d.]+)pt"', picture.svg)[1])
        assert SMALL * picture.size[0] / 25.4 * 72 / drawn >= 7.99, picture.caption


def test_page_fetches_and_runs_nothing(made):
    # It opens on a phone without a network: no script, and nothing but anchors and pictures within the file.
    page, _ = _html(made[3])
    assert "script" not in page.tags
    assert "img" in page.tags
    assert [one for one in page.asked if not one.startswith(("#", "data:image/svg+xml;base64,"))] == []


def test_nothing_is_called_compliant(made):
    # It can hurt people: no sheet says that anything meets a code.
    for text in (_pdf(made[2]), _html(made[3])[1]):
        assert "complian" not in text.lower()
        assert "complies" not in text.lower()


def test_hostile_text_is_shown_as_it_is():
    # Text is data: typst's markup, HTML and words wider than the page come out as they were written, in every place.
    blocks = (
        Words(HOSTILE), Words(HOSTILE, strong=True), Steps("t", HOSTILE, tick=True), Labels((HOSTILE[:2], HOSTILE[2:])),
        Grid(HOSTILE[0], [["a", "b", "c", "d", "e"], list(HOSTILE)]), Blanks(HOSTILE[1], HOSTILE[:2]),
    )  # fmt: skip
    sheet = Day(HOSTILE[0], HOSTILE, HOSTILE[1], (Section(HOSTILE[2], blocks),))
    on_paper, (page, on_phone) = _pdf(to_pdf(sheet)), _html(to_html(sheet))
    for text in HOSTILE:
        assert _bare(text) in on_phone
        assert on_paper.count(_bare(text)) >= 4, text
    assert "script" not in page.tags
    assert "b" not in page.tags


def test_hostile_name_of_a_job_reaches_the_sheet():
    # Through the whole way: the job's own name, not only made-up blocks.
    _, compared, plan = planned("van/job-open-cabin")
    job = plan.coach.job.model_copy(update={"name": HOSTILE[0]})
    first = card(plan, [order for order, _ in compared])
    sheet = day(replace(plan, coach=replace(plan.coach, job=job)), first)
    assert _bare(HOSTILE[0]) in _pdf(to_pdf(sheet))


def test_columns_fill_the_page_and_break_no_word():
    # Tables are as wide as the page; a column is never narrower than its longest word while there is room.
    rows = [["a", "unproven places", ""], ["x" * 10, "edge_left~roof_long_name", ""]]
    found = widths(rows)
    assert sum(found) == pytest.approx(WIDTH, abs=0.01)
    assert min(found) > 15
    assert sum(widths([["W" * 90] * 12])) == pytest.approx(WIDTH, abs=0.01)


def test_words_of_a_leg_by_hand(made):
    # Down 2 m in two stretches, aft 300 mm, then slanting: what goes on the same way is one length.
    coach = made[0].coach
    points: tuple[Point, ...] = ((0, 0, 2000), (0, 0, 1500), (0, 0, 0), (300, 0, 0), (600, 400, 0))
    right = "curb" if coach.street_is_left else "street"
    long, short, slant = (length(mm, coach.units) for mm in (2000, 300, 500))
    assert moves(coach, points) == f"{long} down, then {short} aft, then {slant} towards {right} side and aft"


def test_pages_are_whole():
    # typst draws each page; none is empty.
    sections = (Section("a", (Words(("b",)),)), Section("c", (Words(("d",)),), fresh=True))
    pages = to_pages(Day("t", (), "f", sections), 40)
    assert len(pages) == 2
    assert all(page.startswith(b"\x89PNG") for page in pages)


def test_the_glance_is_on_the_first_page_and_no_page_is_nearly_empty(made):
    # Who opens the sheet sees all figures at once; and a page with a few lines on it is one more to lose on a roof.
    plan, _, pdf = made[:3]
    pages = _pages(pdf)
    for name, one in plan.chosen.items():
        assert _bare(f"{name}: {plan.coach.job.cables[name].start}") in pages[0]
        assert _bare(format_minutes(one.route.criteria.seconds)) in pages[0]
    # Letters, those of head and foot and in pictures among them. The labels begin a page of their own, so that what
    # comes before them ends where it ends.
    assert min(map(len, pages[:-2])) > 600


@pytest.mark.parametrize("made", [JOBS[1]], indirect=True)
def test_same_job_same_bytes_under_any_hash_seed(made, tmp_path: Path):
    # No clock, no chance, no order of hashing in the files: those of another process are those of this one.
    code = "from drawcord.app.cli import main; main()"
    run = [sys.executable, "-c", code, "sheet", str(layouts() / f"{JOBS[1]}.yaml"), "--out", str(tmp_path)]
    subprocess.run(run, check=True, env={**os.environ, "PYTHONHASHSEED": "77"}, capture_output=True)
    assert [(tmp_path / name).read_bytes() for name in ("sheet.pdf", "sheet.html")] == list(made[2:4])


def test_missing_typst_is_one_sentence(tmp_path: Path):
    # Without the library: status 3, what is missing, nothing written.
    code = "import sys; sys.modules['typst'] = None; from drawcord.app.cli import main; main()"
    run = [sys.executable, "-c", code, "sheet", str(layouts() / f"{JOBS[1]}.yaml"), "--out", str(tmp_path / "s")]
    done = subprocess.run(run, check=False, capture_output=True, text=True)
    assert done.returncode == 3
    assert "typst" in done.stderr
    assert done.stderr.count("\n") == 1
    assert not (tmp_path / "s").exists()
