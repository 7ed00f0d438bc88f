"""The gallery: every kind of picture at every stage of its changes, made by the program.

Run `python -m studio.pictures.gallery` in a checkout to make `assets_demo/gallery/index.html` and its pictures anew.
"""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from html import escape
from pathlib import Path

from studio.files import demo_dir, write_text
from studio.pictures.draw import picture_of
from studio.pictures.kinds import KINDS
from studio.pictures.painters.svg import svg
from studio.pictures.themes import Theme, hexadecimal, load_theme

EXAMPLES: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("five frame: 2 dots", ("add 2 crosses, counting", "count")),
    ("ten frame: 7 dots", ("add 2 crosses, counting", "take away 3")),
    ("double ten frame: 10 dots", ("add 4 crosses, counting",)),
    ("dots: 12", ("count by 5",)),
    ("number bond: 9 is 7 and ?", ("fill in", "circle 2")),
    ("number bond: 10 is 2 and ? and 5", ("fill in",)),
    ("number sentence: 7 + ? = 9", ("fill in", "circle 2")),
    ("number sentence: 8 + 6 = 10 + ?", ("fill in",)),
    ("cards: 0 to 8", ("turn over 5", "circle 2")),
    ("tally: 9", ("add 3, counting", "count by 5")),
    ("dice: 6 and 3", ("count by 6",)),
    ("base ten: 8", ("add 4, counting", "count")),
    ("word: fourteen", ()),
    ("number path: 0 to 10, mark 7", ("hop 7 to 9, counting", "mark 9")),
    ("number line: 0 to 10, mark 9", ("hop 9 to 7, counting",)),
    ("more and less: 12", ("fill in", "fill in", "circle 13")),
    ("bar: 9 is 7 and ?", ("fill in", "circle 2")),
    ("compare bars: 9 and 7", ("fill in", "circle 2")),
    ("rekenrek: 7 and 0", ("add 2, counting", "count by 5")),
    ("hundred chart: 1 to 30", ("mark 12", "circle 15", "count by 10")),
    ("text: How many frogs are there now?", ()),
)
SCALE = 0.5
"""CSS pixels a unit in the gallery."""
THEMES = ("warm paper", "dark board", "high contrast", "print")
IN_THEMES: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("ten frame: 7 dots and 2 crosses", ("count by 5",)),
    ("number bond: 9 is 7 and ?", ("fill in", "circle 2")),
    ("number path: 0 to 9, mark 7", ("hop 7 to 9, counting",)),
    ("cards: 5 to 9", ("turn over 7", "circle 8")),
    ("base ten: 14", ()),
    ("rekenrek: 7 and 2", ()),
)

_PAGE = """<!DOCTYPE html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Gallery of pictures</title>
<style>
body {{ margin: 0 auto; max-width: 76rem; padding: 1rem; background: {paper}; color: {ink};
  font: 1.05rem/1.5 Lexend, system-ui, sans-serif; }}
h2 {{ margin: 2.5rem 0 0; }}
h2 + p {{ margin-top: 0; }}
section div {{ display: flex; flex-wrap: wrap; gap: 1.5rem 2rem; align-items: flex-end; }}
figure {{ margin: 0; max-width: 100%; }}
figure img {{ max-width: 100%; height: auto; display: block; }}
figcaption {{ font-size: .85rem; width: 0; min-width: 100%; min-height: 3.2em; }}
h2::first-letter, h2 + p::first-letter, .theme p::first-letter {{ text-transform: uppercase; }}
code {{ font-size: .95em; }}
section .theme {{ display: flex; flex-wrap: wrap; gap: 1rem 2rem; align-items: center; padding: 1rem; margin: 1rem 0;
  border-radius: .5rem; }}
.theme p {{ flex-basis: 100%; margin: 0; }}
.theme img {{ max-width: 100%; height: auto; }}
</style>
<h1>Gallery of pictures</h1>
<p>Every kind of picture, step by step, as a lesson shows it. Under each stands what a screen reader says.</p>
{sections}
</html>
"""


def gallery(folder: Path) -> list[Path]:
    """Write the gallery into a folder; gives the files. Raises UnusableInput where it may not be written."""
    theme = load_theme()
    made: list[Path] = []
    sections: list[str] = []
    missing = set(KINDS) - {spec.split(":")[0] for spec, _ in EXAMPLES}
    assert not missing, f"say in EXAMPLES how to show {missing}"
    for spec, changes in EXAMPLES:
        kind = spec.split(":")[0]
        figures = []
        name = spec.split(":")[0].replace(" ", "-") + ("-2" if f"<h2>{escape(kind)}" in "".join(sections) else "")
        for number, picture in enumerate(picture_of(spec, changes)):
            drawing = picture.drawing()
            path = folder / f"{name}-{number}.svg"
            write_text(path, svg(drawing, theme, description=picture.description(), width=drawing.width * SCALE))
            made.append(path)
            figures.append(_figure(path.name, picture.description()))
        written = " ".join(f"<code>[{escape(kind)}: {escape(change)}]</code>" for change in changes)
        sections.append(
            f"<section><h2>{escape(kind)}</h2><p>{escape(KINDS[kind])}. "
            f"<code>[show {escape(spec)}]</code> {written}</p><div>{''.join(figures)}</div></section>"
        )
    sections.append(_themes(folder, made))
    page = folder / "index.html"
    colours = {"paper": hexadecimal(theme.colour("paper")), "ink": hexadecimal(theme.colour("ink"))}
    write_text(page, _PAGE.format(sections="\n".join(sections), **colours))
    return [*made, page]


def _themes(folder: Path, made: list[Path]) -> str:
    sections = []
    for name in THEMES:
        theme: Theme = load_theme(name)
        figures = []
        for number, (spec, changes) in enumerate(IN_THEMES):
            picture = picture_of(spec, changes)[-1]
            drawing = picture.drawing()
            path = folder / f"theme-{name.replace(' ', '-')}-{number}.svg"
            write_text(path, svg(drawing, theme, description=picture.description(), width=drawing.width * SCALE))
            made.append(path)
            figures.append(f'<img src="{escape(path.name)}" alt="{escape(picture.description())}" loading="lazy">')
        paper, ink = (hexadecimal(theme.colour(of)) for of in ("paper", "ink"))
        sections.append(
            f'<div class="theme" style="background: {paper}; color: {ink}"><p>{escape(name)}</p>{"".join(figures)}</div>'
        )
    return f"<section><h2>themes</h2><p>The same pictures in each theme.</p>{''.join(sections)}</section>"


def _figure(source: str, caption: str) -> str:
    return (
        f'<figure><img src="{escape(source)}" alt="{escape(caption)}" loading="lazy">'
        f"<figcaption>{escape(caption)}</figcaption></figure>"
    )


def main(arguments: Sequence[str] | None = None) -> None:
    """Make the gallery from the command line."""
    parser = argparse.ArgumentParser(description="Make the gallery of all pictures.")
    parser.add_argument("--out", type=Path, default=demo_dir() / "gallery", help="the folder (assets_demo/gallery)")
    made = gallery(parser.parse_args(arguments).out)
    print(f"{len(made)} files, {sum(path.stat().st_size for path in made) / 1000:.0f} kB in {made[-1].parent}")


if __name__ == "__main__":
    main()
