import ast
import re
import shlex
from pathlib import Path
from textwrap import dedent
from typing import get_args

import pytest
import typer
from pydantic import ValidationError
from typer.testing import CliRunner

from drawcord.app.cli import cli
from drawcord.coach.job import Criterion, Job
from drawcord.coach.kinds import SpaceKind
from drawcord.coach.rig import Rig
from drawcord.files.compose import compose

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
SOURCES = sorted((ROOT / "src").rglob("*.py"))
COMMANDS = typer.main.get_command(cli).commands

LAYERS = ("words", "wire", "coach", "ways", "pieces", "routes", "plan", "load", "sheets", "files", "verify", "app")
DEMO = "python3 -m venv .venv && .venv/bin/pip install -q -e . && .venv/bin/drawcord demo"
TESTS = "python3 -m venv .venv && .venv/bin/pip install -q -e '.[test]' && .venv/bin/python -m pytest -q"
LONGEST = 250  # lines of a file; past it, ask what else moved in


def example(command):
    """The example in a command's help, or nothing."""
    found = re.search(r"^Example: (drawcord .+)$", command.help or "", re.MULTILINE)
    return found[1] if found else ""


def test_the_commands_are_those_that_were_asked_for():
    # The tests below run over what is registered, so what is registered is checked first.
    asked = "new check draw ways compare why array circuit look found plan sheet verify bring record demo"
    assert set(COMMANDS) == set(asked.split())


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_shows_an_example_of_itself(name):
    # An example that starts another command, or names a file that is not there, helps nobody.
    words = shlex.split(example(COMMANDS[name]), comments=False)
    assert words[:2] == ["drawcord", name]
    for file in (word for word in words if word.startswith("layouts/")):
        assert (ROOT / file).exists(), f"the example of {name} needs {file}"


@pytest.mark.parametrize("name", COMMANDS)
def test_help_reaches_the_reader_with_its_example(name):
    # What counts is what the terminal shows, wrapped as it may be.
    result = CliRunner().invoke(cli, [name, "--help"])
    assert result.exit_code == 0
    assert example(COMMANDS[name]) in " ".join(result.output.split())


@pytest.mark.parametrize("name", COMMANDS)
def test_every_parameter_says_what_it_is(name):
    # An option without a word of help can only be guessed.
    silent = [parameter.name for parameter in COMMANDS[name].params if not getattr(parameter, "help", None)]
    assert silent == []


@pytest.mark.parametrize("name", COMMANDS)
def test_the_readme_names_every_command(name):
    # The README is where a planner learns what there is.
    assert f"drawcord {name}" in README


def test_the_readme_holds_exactly_the_two_one_line_commands():
    # Both are promises to a fresh machine, and .ci/run takes the second word for word.
    assert [line for line in README.splitlines() if "-m venv" in line] == [DEMO, TESTS]


def test_the_pictures_that_the_readme_shows_are_there():
    # It opens with a picture of a result; a broken one is worse than none.
    pictures = re.findall(r"!\[[^]]*\]\(([^)]+)\)", README)
    assert pictures
    assert [picture for picture in pictures if not (ROOT / picture).is_file()] == []


def test_what_the_readme_tells_people_to_write_is_taken():
    # Its snippets are parts of a file: nothing is wrong with them but that the rest is missing.
    snippets = [dedent(text) for text in re.findall(r"^ *```yaml\n(.*?)^ *```", README, re.MULTILINE | re.DOTALL)]
    assert snippets
    for snippet in snippets:
        data, _ = compose(snippet)
        with pytest.raises(ValidationError) as refused:
            (Rig if "spaces" in data else Job).model_validate(data, by_alias=True, by_name=False)
        missing = [error["type"] == "missing" and len(error["loc"]) == 1 for error in refused.value.errors()]
        assert all(missing), refused.value


@pytest.mark.parametrize("text", [README, DEVELOPERS], ids=["README.md", "DEVELOPERS.md"])
def test_what_the_documents_name_is_there(text):
    # A path in backticks that begins with a folder of the repository leads to something.
    named = re.findall(r"`((?:src|tests|layouts|shared|\.ci)/[^`\s*<>]*)`", text)
    assert named
    assert [path for path in named if not (ROOT / path).exists()] == []


def test_developers_names_every_layer_criterion_and_kind_of_space():
    # Who adds one has to say so to those who come after.
    words = [*LAYERS, *get_args(Criterion), *get_args(SpaceKind)]
    assert [word for word in words if f"`{word}`" not in DEVELOPERS] == []


def test_every_module_says_what_it_is_for():
    # One idea a file, in a sentence at its top.
    silent = [path for path in SOURCES if not ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))]
    assert len(SOURCES) > 50
    assert [str(path.relative_to(ROOT)) for path in silent] == []


def test_no_source_file_is_too_long():
    # No exceptions: a file past this holds two ideas.
    lines = {path: len(path.read_text(encoding="utf-8").splitlines()) for path in SOURCES}
    assert {str(path.relative_to(ROOT)): count for path, count in lines.items() if count > LONGEST} == {}
