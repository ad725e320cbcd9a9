"""A finding noted in a job file: everything else in it stays as it was."""

import pytest

from drawcord.files.document import read_document
from drawcord.files.home import layouts
from drawcord.files.noting import noted
from drawcord.words.faults import BadInput

ENTRY = {"what": "chase", "standing": "blocked", "source": "looked", "date": "2026-05-04"}
LINE = "    - {what: chase, standing: blocked, source: looked, date: '2026-05-04'}"


def note(tmp_path, text, **entry):
    path = tmp_path / "job.yaml"
    path.write_bytes(text.encode())
    return noted(read_document(path), text, {**ENTRY, **entry})


def found(tmp_path, text):
    path = tmp_path / "after.yaml"
    path.write_bytes(text.encode())
    return read_document(path).data["differences"]["found"]


@pytest.mark.parametrize("job", sorted(layouts().glob("*/job-*.yaml")), ids=lambda job: job.stem)
def test_a_demo_job_gets_one_line_more(job):
    # Odd spacing, wrapped lines, comments, keys without a value: all as before.
    before = job.read_text(encoding="utf-8")
    after = noted(read_document(job), before, ENTRY).splitlines()
    assert after.count(LINE) == 1
    after.remove(LINE)
    assert after == before.splitlines()


COMMENTED = """\
# top
job: x  # kept
differences:   # all
  found:  # what
    - what: linen   # hm
      standing: proven
    # between
    - {what: chase, chance: 30 %, source: knocked}  # beside

  # about bays
  spaces:
    bay: {kind: bay,   long: 80 cm}   # odd

# below
cables: {pv: {a: },
  b: 2}
"""


def test_an_earlier_finding_gives_way_to_the_new_one(tmp_path):
    # Its chance goes with it, and every comment stays where it was; outside the section not a byte changes.
    after = note(tmp_path, COMMENTED)
    entries = [{"what": "linen", "standing": "proven"}, ENTRY]
    assert found(tmp_path, after) == entries
    assert [line.split("#")[1] for line in after.splitlines() if "#" in line] == [
        line.split("#")[1] for line in COMMENTED.splitlines() if "#" in line
    ]
    assert after.endswith(COMMENTED[COMMENTED.index("\n# below") :])


def test_a_new_finding_comes_behind_the_last_with_its_comment(tmp_path):
    # What is said beside the last one stays beside it; what is said below stays below.
    after = note(tmp_path, COMMENTED, what="a~b").splitlines()
    last = next(number for number, line in enumerate(after) if "beside" in line)
    assert "what: chase" in after[last]
    assert after[last + 1] == LINE.replace("chase", "a~b")
    assert after[last + 3] == "  # about bays"


@pytest.mark.parametrize(
    "text",
    [
        "job: x",
        "job: x\n# the end\n",
        "job: x\r\nb: 1\r\n",
        "\ufeffjob: x\n",
        "job: x\ndifferences:\n",
        "job: x\ndifferences: {}\nb: 1\n",
        "job: x\ndifferences:\n  removed: [a]  # gone\n",
        "job: x\ndifferences: {found: [], removed: [a]}\n",
        "job: x\ndifferences:\n  found:\n  - {what: a~b, standing: proven}\n",
        "differences:\n  found: []\njob: x\n",
    ],
)
def test_wherever_there_is_no_finding_yet_it_is_added(tmp_path, text):
    # Without a section, with an empty one, in another style, other line ends, a byte order mark.
    after = note(tmp_path, text)
    assert found(tmp_path, after)[-1] == ENTRY
    assert after.startswith("\ufeff") == text.startswith("\ufeff")
    assert ("\r\n" in text) == ("\r\n" in after)
    assert after.replace("\r\n", "").count("\r") == 0
    assert [line for line in text.splitlines() if "#" in line] == [line for line in after.splitlines() if "#" in line]


def test_a_passage_noted_the_other_way_round_is_the_same(tmp_path):
    # `linen~bay` stands in the file; `bay~linen` is found.
    after = note(tmp_path, "differences:\n  found:\n    - {what: linen~bay, chance: 30 %}\n", what="bay~linen")
    assert [entry["what"] for entry in found(tmp_path, after)] == ["bay~linen"]


def test_what_would_change_something_else_is_refused(tmp_path):
    # Another section repeats this one by an alias: it would be without what it names, so nothing is written.
    with pytest.raises(BadInput) as refused:
        note(tmp_path, "job: x\ndifferences: &same\n  found: []\nother: *same\n")
    assert (refused.value.problems[0].line, "- {what: chase" in str(refused.value)) == (2, True)
