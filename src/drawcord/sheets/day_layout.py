"""How the sheet for the day looks on paper: typst's own language. It holds no text of a job, only where text goes."""

LAYOUT = r"""
#let day = json("day.json")
#let line-to-write(width) = box(width: width, stroke: (bottom: 0.5pt), outset: (bottom: 2pt))
#set document(title: day.title, author: "drawcord")
#set page(
  paper: "a4",
  margin: (x: 12mm, top: 14mm, bottom: 16mm),
  header: {
    set text(8pt)
    let title = box(clip: true, height: 1.5em, width: 100%, inset: (bottom: 0.4em), align(bottom, day.title))
    grid(columns: (1fr, auto), column-gutter: 6mm,
      title, [job #line-to-write(28mm) date #line-to-write(28mm)])
  },
  footer: context {
    set text(8pt)
    grid(columns: (1fr, auto), column-gutter: 6mm,
      day.foot, [page #counter(page).display() of #counter(page).final().first()])
  },
)
#set text(font: "DejaVu Sans", size: 8.5pt, lang: "en", hyphenate: false)
#set par(leading: 0.5em, spacing: 0.7em)

#let after(m) = m.text + "\u{200b}"
#let long = regex("[^\s\x{200b}]{" + str(day.piece) + "}")
#let parted(word) = word.replace(regex("[~_./\-]"), after).replace(long, after)
#let soft(it) = it.replace(regex("\S{" + str(day.long) + ",}"), m => parted(m.text))

#let headline(it) = block(above: 1.2em, below: 0.6em, sticky: true, text(9.5pt, weight: "bold", soft(it)))
#let words(b) = if b.strong {
  let marked = b.lines.map(l => text(weight: "bold", soft(l)))
  block(width: 100%, stroke: 1pt, inset: 2.5mm, breakable: false,
    list(marker: [#sym.triangle.filled.small.r], ..marked))
} else {
  for l in b.lines { par(soft(l)) }
}
#let steps(b) = if b.lines.len() > 0 {
  headline(b.title)
  let numbered = b.lines.enumerate().map(((n, l)) => (if b.tick [☐], str(n + 1), soft(l)))
  grid(columns: (auto, auto, 1fr), column-gutter: 2mm, row-gutter: if b.tick { 1.8mm } else { 1.2mm },
    ..numbered.flatten())
}
#set table.cell(breakable: false)
#let rows(b) = {
  if b.title != "" { headline(b.title) }
  let head = b.rows.first().map(c => table.cell(fill: luma(230), text(8pt, weight: "bold", soft(c))))
  let cells = b.rows.slice(1).flatten().map(c => text(8pt, if c == "" { v(3mm) } else { soft(c) }))
  table(columns: b.widths.map(w => w * 1mm), inset: (x: 1.2mm, y: 1.3mm), stroke: 0.4pt + luma(90),
    table.header(..head), ..cells)
}
#let picture(b) = figure(
  image(b.file, width: b.width * 1mm, height: b.height * 1mm, alt: b.caption),
  caption: text(8pt, soft(b.caption)), numbering: none, outlined: false,
  placement: if b.floats { auto } else { none })
#let whole(it) = layout(page => block(width: 100%, breakable: measure(it, width: page.width).height > page.height, it))
#let beside(b) = if b.picture.width < 120 {
  whole(grid(columns: (b.picture.width * 1mm, 1fr), column-gutter: 4mm, picture(b.picture), steps(b.steps)))
} else {
  picture(b.picture)
  steps(b.steps)
}
#let blanks(b) = {
  headline(b.title)
  let named(n) = grid(columns: (auto, 1fr), column-gutter: 2mm,
    soft(n), box(width: 100%, height: 1em, stroke: (bottom: 0.5pt)))
  grid(columns: (1fr, 1fr), column-gutter: 6mm, row-gutter: 5mm, ..b.names.map(named))
}
#let label(lines) = {
  let said = lines.enumerate().map(((n, l)) => text(8pt, weight: if n == 0 { "bold" } else { "regular" }, soft(l)))
  let cut-along = (paint: black, thickness: 0.5pt, dash: "dashed")
  block(width: 100%, breakable: false, inset: (x: 1.8mm, y: 1mm), stroke: cut-along,
    stack(spacing: 1.4mm, v(0pt), ..said, v(1mm)))
}
#let labels(b) = grid(columns: (1fr,) * 3, gutter: 2mm, ..b.texts.map(label))
#let kinds = (
  words: words, steps: steps, grid: rows, picture: picture, beside: beside, blanks: blanks, labels: labels)

#text(16pt, weight: "bold", soft(day.title))
#for l in day.lines { par(soft(l)) }
#let section(s) = {
  block(above: 1.6em, below: 0.8em, sticky: true, width: 100%, stroke: (bottom: 1pt), inset: (bottom: 1.5mm),
    text(12pt, weight: "bold", soft(s.title)))
  for b in s.blocks { (kinds.at(b.kind))(b) }
}
#for s in day.sections {
  if s.fresh { pagebreak(weak: true) }
  if s.whole { whole(section(s)) } else { section(s) }
}
"""
