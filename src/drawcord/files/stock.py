"""The van's stock from the shop's files."""

import os
from pathlib import Path

from drawcord.coach.catalogue import Types
from drawcord.coach.van import Van, check
from drawcord.files.document import Document, placed, read_document
from drawcord.files.home import shared
from drawcord.files.load import load_shop, model_of
from drawcord.words.faults import BadInput

STOCK = "stock.yaml"


def stocked(shop_folder: Path | None) -> Van | None:
    """The van's stock, None where the shop keeps none. Raises BadInput."""
    if not os.path.lexists((shop_folder or shared()) / STOCK):
        return None
    return load_van(shop_folder, load_shop(shop_folder)[0].types)[0]


def load_van(shop_folder: Path | None, types: Types) -> tuple[Van, Document]:
    """What `stock.yaml` in the shop's folder says, held against the types there are. Raises BadInput."""
    document = read_document((shop_folder or shared()) / STOCK)
    van = model_of(document, Van)
    if problems := check(van, types):
        raise BadInput(placed(problems, document))
    return van, document
