"""Where the shipped rigs and the shop's files are found."""

import pytest

from drawcord.files import home
from drawcord.words.faults import Surroundings


@pytest.fixture
def installed(tmp_path, monkeypatch):
    """A copy of the package somewhere with nothing beside it."""
    package = tmp_path / "checkout" / "src" / "drawcord"
    package.mkdir(parents=True)
    monkeypatch.setattr(home, "PACKAGE", package)
    return package


def test_the_checkout_that_holds_the_source_comes_first(installed):
    # An editable install carries a stale snapshot inside the package: an edit in the checkout must count.
    checkout = installed.parents[1]
    (checkout / "pyproject.toml").write_text('[project]\nname = "drawcord"\n')
    for folder in (installed / "layouts", installed / "shared"):
        folder.mkdir()
    assert home.layouts() == checkout / "layouts"
    assert home.shared() == checkout / "shared"


@pytest.mark.parametrize("project", [None, b'[project]\nname = "other"\n', b"", b"\xff"])
def test_an_installed_copy_uses_what_it_carries(installed, project):
    # A folder of another project around the package is no checkout of ours.
    if project is not None:
        (installed.parents[1] / "pyproject.toml").write_bytes(project)
    for folder in (installed / "layouts", installed / "shared"):
        folder.mkdir()
    assert home.layouts() == installed / "layouts"
    assert home.shared() == installed / "shared"


def test_a_copy_without_its_folders_says_what_to_do(installed):
    (installed / "layouts").mkdir()
    with pytest.raises(Surroundings, match="install drawcord again"):
        home.shared()


def test_here_both_are_real_folders():
    assert home.layouts().is_dir()
    assert home.shared().is_dir()
