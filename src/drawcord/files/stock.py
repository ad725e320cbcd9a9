"""The van's stock from the shop's files."""

from pathlib import Path

from drawcord.coach.catalogue import Types
from drawcord.coach.van import Van, check
from drawcord.files.document import Document, placed, read_document
from drawcord.files.home import shared
from drawcord.files.load import model_of
from drawcord.words.faults import BadInput


def load_van(shop_folder: Path | None, types: Types) -> tuple[Van, Document]:
    """What `stock.yaml` in the shop's folder says, held against the types there are. Raises BadInput."""
    document = read_document((shop_folder or shared()) / "stock.yaml")
    van = model_of(document, Van)
    if problems := check(van, types):
        raise BadInput(placed(problems, document))
    return van, document
