"""The sheet for the day as one HTML file: no script, nothing fetched, so that a phone shows it without a network."""

import base64
import re
from collections.abc import Iterable
from html import escape

from drawcord.sheets.day_parts import Beside, Blanks, Block, Day, Grid, Labels, Picture, Steps, Words
from drawcord.sheets.lines import bound

STYLE = """
body{font:16px/1.4 "DejaVu Sans",system-ui,sans-serif;color:#000;background:#fff}
body{margin:0 auto;padding:12px;max-width:60rem}
h1{font-size:1.5rem}h2{border-bottom:2px solid #000;margin-top:2rem}h1,h2,h3,p,li{overflow-wrap:anywhere}
.strong{border:3px solid #000;padding:8px;font-weight:bold}.wide{overflow-x:auto}
table{border-collapse:collapse;width:100%}
td,th{border:1px solid #555;padding:4px 6px;text-align:left;vertical-align:top;min-width:2.5rem}
td,th{overflow-wrap:break-word;max-width:22rem}@media(max-width:40rem){td,th{font-size:14px}}
.long{min-width:11rem}th{background:#e6e6e6}figure{margin:1rem 0}img{width:100%;height:auto}.tick{list-style:"☐ "}
.labels{display:grid;grid-template-columns:repeat(auto-fill,minmax(14rem,1fr));gap:8px}
.labels div{border:1px dashed #000;padding:6px}
.blank{border-bottom:1px solid #000;display:inline-block;min-width:10rem}
"""
LONG = 50  # letters from which a cell is kept wide enough to read on a phone; the table is pushed sideways instead


def to_html(day: Day) -> bytes:
    """The whole sheet in one file."""
    toc = "".join(f'<li><a href="#s{n}">{escape(one.title)}</a></li>' for n, one in enumerate(day.sections, start=1))
    body = "".join(
        f'<section id="s{number}"><h2>{escape(one.title)}</h2>{"".join(map(_block, one.blocks))}</section>\n'
        for number, one in enumerate(day.sections, start=1)
    )
    allowed = "default-src 'none'; img-src data:; style-src 'unsafe-inline'"
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f'<meta http-equiv="Content-Security-Policy" content="{allowed}">'
        f"<title>{escape(day.title)}</title><style>{STYLE}</style></head>\n"
        f"<body><h1>{escape(day.title)}</h1>{_all('p', day.lines)}<p>{escape(day.foot)}</p>"
        f'<nav><ul>{toc}</ul></nav>\n{body}</body></html>\n'
    ).encode()


def _block(block: Block) -> str:  # type: ignore[return]  # every kind of block is matched; mypy loses it in the tuples
    match block:
        case Words(lines, strong):
            return f'<div class="{"strong" if strong else "words"}">{_all("p", lines)}</div>'
        case Steps(title, lines, tick):
            return _head(title) + f'<ol class="{"tick" if tick else "steps"}">{_all("li", lines)}</ol>' if lines else ""
        case Grid(title, (header, *rows)):
            body = "".join(f"<tr>{''.join(map(_cell, row))}</tr>" for row in rows)
            return _head(title) + f'<div class="wide"><table><tr>{_all("th", header)}</tr>{body}</table></div>'
        case Picture(caption, svg, (width, _)):  # as large as on paper, so that its smallest type can be read
            data = f"data:image/svg+xml;base64,{base64.b64encode(svg).decode()}"
            shown = f'<img alt="{escape(caption)}" style="min-width:{width:g}mm" src="{data}">'
            return f'<figure class="wide">{shown}<figcaption>{escape(caption)}</figcaption></figure>'
        case Beside(picture, steps):
            return _block(picture) + _block(steps)
        case Blanks(title, names):
            return _head(title) + "".join(f'<p>{escape(name)} <span class="blank">&nbsp;</span></p>' for name in names)
        case Labels(texts):
            shown = "".join(f"<div>{_all('p', text)}</div>" for text in texts)
            return f'<div class="labels">{shown}</div>'


def _head(title: str) -> str:
    return f"<h3>{escape(title)}</h3>" if title else ""


def _cell(text: str) -> str:
    return f'<td class="long">{_soft(text)}</td>' if len(text) > LONG else f"<td>{_soft(text)}</td>"


def _all(tag: str, texts: Iterable[str]) -> str:
    return "".join(f"<{tag}>{_soft(text)}</{tag}>" for text in texts)


def _soft(text: str) -> str:
    """Text in which an id may break behind its joints, never a number: so a table keeps within a phone if it can."""
    return re.sub(r"[~_./-](?=[^\W\d])", r"\g<0><wbr>", escape(bound(text)))
