import os
import subprocess
import sys
from copy import deepcopy
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from pydantic import TypeAdapter, ValidationError

from drawcord.coach.closed import Id
from drawcord.coach.job import Job
from drawcord.coach.rig import Rig
from drawcord.files.document import read_document
from drawcord.files.reference import FILES, _below, generated, page
from drawcord.files.schema import schema_of
from drawcord.files.wording import EXAMPLES, QUANTITIES, takes

ROOT = Path(__file__).parents[1]
LAYOUTS = sorted((ROOT / "layouts").glob("*/*.yaml"))
GENERATED = generated()
PAGE = page()
SCHEMAS = {model: schema_of(model) for model in FILES.values()}
MODELS = sorted(
    {model for root in FILES.values() for model in (root, *_below(root))}, key=lambda model: model.__name__
)

SPACE = {"kind": "cabinet", "from front": "1..2 m", "up": "floor..ceiling", "plain": ["aft"], "door": "left"}
RIG = {
    "format": 1,
    "rig": "small",
    "name": "A small one",
    "traffic keeps": "right",
    "shell": {
        "length": "6 m",
        "width": "2 m",
        "wall": "30 mm",
        "floor thickness": "40 mm",
        "ceiling": "2 m",
        "roof": "2.05 m",
        "ground": "-600 mm",
        "roof skin": "steel",
    },
    "spaces": {
        "closet": SPACE,
        "galley": {**SPACE, "from front": ["2 m", "3 m"], "usable": {"aft": "80 mm"}},
    },
    "passages": {"gap": {"between": ["closet", "galley"], "opening": "exists", "chance": 0.5}},
}
JOB = {
    "format": 1,
    "job": "first",
    "name": "A first one",
    "units": "cm",
    "rig": "rig.yaml",
    "equipment": {
        "box": {"kind": "junction box", "in": "roof", "from front": 40, "left": 9, "terminals": {"pv": None}},
        "store": {"kind": "battery", "in": "galley", "from front": 250, "left": 9, "terminals": {"dc": {}}},
    },
    "cables": {
        "pv": {
            "from": "box.pv",
            "to": "store.dc",
            "class": "PV",
            "cores": 2,
            "amperes": "9 A",
            "volts": "40 V",
            "outside diameter": 0.6,
            "smallest bend": "30 mm",
            "largest plug": "20 mm",
            "longest piece": 300,
        }
    },
    "owner": {"weights": {"doubt": 9}},
    "temperatures": {"coldest": "-15 °C", "hottest": "50 °C"},
}


AS_READ = {"context": {"unit": "cm"}, "by_alias": True, "by_name": False}


def model_of(data):
    return Job if "job" in data else Rig


def refusals(data):
    """The places at which the schema of a rig or job refuses it."""
    errors = Draft202012Validator(SCHEMAS[model_of(data)]).iter_errors(data)
    return ["/".join(map(str, error.absolute_path)) for error in errors]


def changed(data, holder, change):
    """A copy of a file's data, its mapping at `holder` changed."""
    data = deepcopy(data)
    target = data
    for part in holder.split("/") if holder else ():
        target = target[part]
    change(target)
    return data


@pytest.mark.parametrize("name", sorted(GENERATED))
def test_the_committed_files_are_what_the_models_say(name):
    # Editors and readers use the copies in shared/; a model changed without them would make them lie.
    again = "stale: run `python -m drawcord.files.reference shared`"
    assert (ROOT / "shared" / name).read_bytes() == GENERATED[name], again


def test_the_command_writes_the_files_whatever_the_hash_seed(tmp_path):
    # The module run as DEVELOPERS.md says, twice with other orders of hashing: the same bytes as in process.
    for seed in ("1", "2"):
        folder = tmp_path / seed
        command = [sys.executable, "-m", "drawcord.files.reference", str(folder)]
        subprocess.run(command, check=True, env={**os.environ, "PYTHONHASHSEED": seed})
        assert {file.name: file.read_bytes() for file in folder.iterdir()} == GENERATED


@pytest.mark.parametrize("model", [Rig, Job])
def test_each_schema_is_one_and_says_what_it_is_for(model):
    # An independent reader takes the schema for valid, and it carries what an editor shows first.
    schema = SCHEMAS[model]
    Draft202012Validator.check_schema(schema)
    assert schema["$schema"] == Draft202012Validator.META_SCHEMA["$schema"]
    assert schema["title"] == f"drawcord {model.__name__.lower()} file"
    assert schema["description"] == model.__doc__


def test_there_are_layouts_to_hold_against_the_schemas():
    # Without this, an empty folder would pass the next test.
    assert {path.name.startswith("job") for path in LAYOUTS} == {True, False}


@pytest.mark.parametrize("path", LAYOUTS, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_every_layout_satisfies_its_schema(path):
    # What drawcord takes, an editor that holds the schema must not mark as wrong.
    assert refusals(read_document(path).data) == []


def test_a_right_rig_and_job_satisfy_model_and_schema():
    # What the next two tests spoil is right to begin with, by the models' own word too.
    for right in (RIG, JOB):
        model_of(right).model_validate(right, **AS_READ)
    assert refusals(RIG) == refusals(JOB) == []


WRONG = {
    "unknown key": (RIG, "spaces/galley", "colour", "white", "spaces/galley"),
    "unknown key at the top": (RIG, "", "slides", {}, ""),
    "python's name for a key": (RIG, "", "moving_parts", {}, ""),
    "unknown word": (RIG, "spaces/galley", "kind", "cupboard", "spaces/galley/kind"),
    "id with a capital": (RIG, "spaces", "Galley", SPACE, "spaces"),
    "id that is too long": (RIG, "spaces", "a" * 41, SPACE, "spaces"),
    "another format": (RIG, "", "format", 2, "format"),
    "text for a list": (RIG, "spaces/galley", "plain", "aft", "spaces/galley/plain"),
    "list for a length": (RIG, "shell", "roof", [1, 2], "shell/roof"),
    "one end of a pair": (RIG, "passages/gap", "between", ["closet"], "passages/gap/between"),
    "three ends of a range": (RIG, "spaces/galley", "from front", [1, 2, 3], "spaces/galley/from front"),
    "face that is none": (RIG, "spaces/galley", "usable", {"top": "80 mm"}, "spaces/galley/usable"),
    "too many cores": (JOB, "cables/pv", "cores", 99, "cables/pv/cores"),
    "text for a number": (JOB, "cables/pv", "cores", "two", "cables/pv/cores"),
    "bare temperature": (JOB, "temperatures", "coldest", -15, "temperatures/coldest"),
    "negative weight": (JOB, "owner", "weights", {"doubt": -1}, "owner/weights/doubt"),
    "weight of nothing known": (JOB, "owner", "weights", {"beauty": 1}, "owner/weights"),
    "no cable": (JOB, "", "cables", {}, "cables"),
}


@pytest.mark.parametrize("case", WRONG)
def test_the_schema_refuses_what_is_wrong_where_it_is_wrong(case):
    # One slip in a right file: the schema names its place and no other, and the model refuses it as well.
    right, holder, key, value, place = WRONG[case]
    wrong = changed(right, holder, lambda target: target.update({key: value}))
    assert set(refusals(wrong)) == {place}
    with pytest.raises(ValidationError):
        model_of(wrong).model_validate(wrong, **AS_READ)


@pytest.mark.parametrize(
    ("right", "holder", "key"),
    [
        (RIG, "", "traffic keeps"),
        (RIG, "shell", "roof skin"),
        (RIG, "spaces/galley", "kind"),
        (JOB, "cables/pv", "from"),
        (JOB, "equipment/box", "in"),
    ],
)
def test_the_schema_misses_what_is_missing(right, holder, key):
    # A key that a file needs is asked for where it should stand.
    assert refusals(changed(right, holder, lambda target: target.pop(key))) == [holder]


@pytest.mark.parametrize("name", QUANTITIES)
def test_every_example_of_a_quantity_is_taken(name):
    # The reference tells people to write these; the parser itself is the judge.
    for example in EXAMPLES[name]:
        assert TypeAdapter(QUANTITIES[name]).validate_python(example) is not None


@pytest.mark.parametrize("model", MODELS, ids=lambda model: model.__name__)
def test_every_key_is_described_and_told(model):
    # A key without a description, or one that the page leaves out, is a key that nobody can use.
    for name, field in model.model_fields.items():
        assert field.description, f"{model.__name__}.{name} has no description"
        assert f"\n| `{field.alias or name}` |" in PAGE
    assert (model.__doc__ or "").strip(), f"{model.__name__} has no docstring"


def test_every_word_that_a_file_may_hold_stands_in_the_page():
    # Literals are read from the JSON Schemas themselves, wherever they are nested.
    def words(schema):
        if isinstance(schema, dict):
            yield from schema.get("enum", []) if isinstance(schema.get("enum"), list) else []
            schema = list(schema.values())
        for part in schema if isinstance(schema, list) else ():
            yield from words(part)

    found = {word for schema in SCHEMAS.values() for word in words(schema)}
    assert {"cabinet", "slide-out", "roof into room", "in sight"} <= found  # the search does find them
    assert sorted(word for word in found if f"`{word}`" not in PAGE) == []


def test_every_link_leads_to_a_heading():
    # A link into the page that leads nowhere is a model that nobody told.
    links = {part.partition(")")[0] for part in PAGE.split("](#")[1:]}
    headings = [line.lstrip("# ") for line in PAGE.splitlines() if line.startswith("#")]
    assert "moving-part" in links
    assert links <= {heading.lower().replace(" ", "-") for heading in headings}
    assert len(set(headings)) == len(headings)


def test_no_cell_breaks_its_table():
    # A bar within a cell would make a column of its own; every row has as many bars as its header.
    tables = [block.splitlines() for block in PAGE.split("\n\n") if block.startswith("|")]
    assert len(tables) > len(MODELS)
    assert [rows[0] for rows in tables if len({row.count("|") for row in rows}) > 1] == []


@pytest.mark.parametrize(
    ("schema", "said"),
    [
        ({"$ref": "#/$defs/MovingPart"}, "[moving part](#moving-part)"),
        ({"anyOf": [{"type": "string"}, {"type": "null"}]}, "text"),
        (TypeAdapter(Id).json_schema(), "an id"),
        ({"enum": ["in"]}, "`in`"),
        ({"enum": ["in", "out", "up"]}, "`in`, `out` or `up`"),
        ({"type": "array", "items": {"enum": ["up", "down"]}}, "a list, each `up` or `down`"),
        ({"type": "integer", "minimum": 1, "maximum": 24}, "a whole number from 1 to 24"),
        ({"type": "object", "additionalProperties": {"type": "string"}}, "by name: text"),
    ],
)
def test_a_schema_in_words(schema, said):
    # The words are the page's only account of a form, so each form is looked at once.
    assert takes(schema) == said


def test_a_form_without_words_is_no_silent_gap():
    # A new form of field must stop the page from being made rather than be left out of it.
    with pytest.raises(KeyError):
        takes({"allOf": []})
