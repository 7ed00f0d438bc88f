"""What becomes of each picture: the direction that shows it and the changes that follow until another picture of that name is
shown."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from studio.script.model import Add, ChangePicture, Direction, Show, TakeAway

_REACH = 12  # changes


@dataclass(slots=True)
class _Course:
    show: Show | None
    changes: list[ChangePicture] = field(default_factory=list)


class Courses:
    """The courses of all pictures of a lesson."""

    def __init__(self, directions: Iterable[Direction]) -> None:
        self._of: dict[int, tuple[_Course, int]] = {}
        on: dict[str, _Course] = {}
        for direction in directions:
            if isinstance(direction, Show):
                course = on[direction.name] = _Course(direction)
            elif isinstance(direction, ChangePicture):
                course = on.setdefault(direction.name, _Course(None))
                course.changes.append(direction)
            else:
                continue
            self._of[id(direction)] = course, len(course.changes)

    def show(self, direction: Show | ChangePicture) -> Show | None:
        """The direction that shows the picture of this one."""
        return self._of[id(direction)][0].show

    def later(self, direction: Show | ChangePicture) -> list[ChangePicture]:
        """The next changes of the picture after a direction."""
        course, at = self._of[id(direction)]
        return course.changes[at : at + _REACH]

    def earlier(self, direction: ChangePicture) -> list[ChangePicture]:
        """The last changes of the picture before a direction, in their order."""
        course, at = self._of[id(direction)]
        return course.changes[max(0, at - 1 - _REACH) : at - 1]


def difference(change: ChangePicture) -> int:
    """How many more there are after a change."""
    match change.change:
        case Add(count=count):
            return count
        case TakeAway(count=count):
            return -count
        case _:
            return 0
