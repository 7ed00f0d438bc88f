"""What the other groups of a drill let expect: "Six? Four. Three? Seven. Nine? One." """

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.expect.groups import Groups
from studio.agree.expect.hints import Hint, named
from studio.agree.expect.place import Place


def find(place: Place) -> Iterator[Hint]:
    for same in place.book.once(Groups).same[place.index]:
        yield same.value, named(f"Gr{same.sort}{same.others}")
