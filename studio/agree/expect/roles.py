"""What each number of a picture is in it: the total, the dots, the crosses, the whole, a part, what is still empty."""

from __future__ import annotations

from studio.agree.looks import essential, relation, visible
from studio.pictures.base import Picture
from studio.pictures.marks import MarkPicture

Roles = tuple[tuple[str, int], ...]


def roles(picture: Picture) -> Roles:
    """Pairs of a role and a number: "tot" total, "dot", "cro", "emp" seen otherwise in a picture of marks; "who" whole,
    "par" part, "ess" what another picture is there to show, "vis" what else can be seen in it."""
    if isinstance(picture, MarkPicture):
        if picture.dots and picture.crosses:
            found = [("tot", picture.total), ("dot", picture.dots), ("cro", picture.crosses)]
        else:
            found = [("tot", picture.total)]
        named = {value for _, value in found}
        return (*found, *(("emp", value) for value in visible(picture) - named))
    found = []
    fact = relation(picture)
    if fact is not None:
        found = [("who", fact.whole), *(("par", part) for part in dict.fromkeys(fact.parts))]
    named = {value for _, value in found}
    shown = [value for value in dict.fromkeys(essential(picture)) if value not in named]
    named.update(shown)
    return (*found, *(("ess", value) for value in shown), *(("vis", value) for value in visible(picture) - named))


_SORTS = {
    "five frame": "frame", "ten frame": "frame", "double ten frame": "frame", "dots": "frame", "number bond": "bond",
    "bar": "bond", "number path": "line", "number line": "line", "hundred chart": "line",
}  # fmt: skip


def sort_of(picture: Picture) -> str:
    """Kinds of picture that are talked about in the same way have one sort."""
    return _SORTS.get(picture.kind, picture.kind)
