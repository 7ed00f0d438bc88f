"""The clues of a number in a direction: pairs of a number that may be shown and the name of the clue that points to it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator

from studio.agree.expect.shown.place import ShownPlace
from studio.script.model import Show

Clue = tuple[int, str]
_NEAR = 5  # numbers
_EARLIER = 8  # numbers of directions
_LATER = 6
_STATEMENTS = 8
_SENTENCES = 8
_STEPS = (1, -1, 2, -2, 10, -10)


def find(place: ShownPlace) -> Iterator[Clue]:
    """All clues of a place."""
    yield from _said_after(place)
    yield from _said_before(place)
    yield from _with_mates(place)
    yield from _companions(place)
    yield from _stated(place)
    yield from _other_pictures(place)
    yield from _on_the_screen(place)
    yield from _of_the_segment(place)


def _said_after(place: ShownPlace) -> Iterator[Clue]:
    book = place.book.book
    for rank, index in enumerate(place.after):
        number = book.numbers[index]
        value = number.value
        here = "w" if number.start < place.until else "o"
        yield value, f"a{min(rank, 5)}{here}"
        yield value, f"a{here}"
        yield value, f"aa{here}:{book.after[index].sort}"
        yield value, f"ab{here}:{book.before[index].sort}"
        if here == "w":
            yield value, f"aw:{book.after[index].word}"
            yield value, f"au:{book.before[index].word}"
            yield value, f"ad{min(6, (number.start - place.slot.at) // 3)}"
        if rank >= _NEAR:
            continue
        yield from _related(value, f"a{rank}")
        if value % 2 == 0:
            yield value // 2, f"a{rank}/2"
        if value > 9:
            yield value // 10, f"at:{book.after[index].sort}"
            yield value % 10, f"ao:{book.after[index].sort}"
        if index + 1 in place.after:
            yield from _joined(value, book.numbers[index + 1].value, f"a{rank}", book.links[index])


def _said_before(place: ShownPlace) -> Iterator[Clue]:
    book = place.book.book
    last = place.book.last_show(place.slot.at)
    for rank, index in enumerate(place.before):
        number = book.numbers[index]
        value = number.value
        here = "w" if number.start >= last else "o"
        yield value, f"b{min(rank, 5)}{here}"
        yield value, f"b{here}"
        yield value, f"ba:{book.after[index].sort}"
        yield value, f"bb:{book.before[index].sort}"
        yield value, f"bw:{book.after[index].word}"
        if rank >= _NEAR:
            continue
        yield from _related(value, f"b{rank}")
        if value > 9:
            yield value // 10, "bt"
            yield value % 10, "bo"
        if index - 1 in place.before:
            yield from _joined(value, book.numbers[index - 1].value, f"b{rank}", book.links[index - 1])
    if place.after and place.before:
        one, other = book.numbers[place.after[0]].value, book.numbers[place.before[0]].value
        yield one + other, "b0as"
        yield abs(one - other), "b0am"


def _related(value: int, name: str) -> Iterator[Clue]:
    """A few steps on and back from a number that is said, and its double."""
    for step in _STEPS:
        yield value + step, f"{name}{step:+}"
    yield 2 * value, f"{name}*2"


def _joined(value: int, other: int, name: str, link: str) -> Iterator[Clue]:
    """The sum and the difference of two numbers that are said one after the other."""
    yield value + other, f"{name}s:{link}"
    yield abs(value - other), f"{name}m:{link}"


def _with_mates(place: ShownPlace) -> Iterator[Clue]:
    """From the other numbers of the direction."""
    mates = place.mates[:6]
    for mate in mates:
        yield mate.value, f"q{mate.name}"
        for step in (1, -1):
            yield mate.value + step, f"q{step:+}{mate.name}"
        for rank, index in enumerate(place.after[:_NEAR]):
            said = place.number(index).value
            yield said - mate.value, f"q-{rank}{mate.name}"
            yield said + mate.value, f"q+{rank}{mate.name}"
        for rank, index in enumerate(place.before[:3]):
            said = place.number(index).value
            yield abs(said - mate.value), f"Q-{rank}{mate.name}"
            yield said + mate.value, f"Q+{rank}{mate.name}"
    if len(mates) > 1:
        yield sum(mate.value for mate in mates), f"qs{min(len(mates), 4)}"
        yield abs(mates[0].value - mates[1].value), "qm"
        greatest = max(mate.value for mate in mates)
        yield 2 * greatest - sum(mate.value for mate in mates), f"qw{min(len(mates), 4)}"


def _companions(place: ShownPlace) -> Iterator[Clue]:
    """What stands beside the other numbers of the direction in the sentences that follow and went before."""
    mates = {mate.value for mate in place.mates}
    case = place.book.book.case
    if not place.slot.at < len(case.talk.words):
        return
    middle = case.sentence_index(place.slot.at)
    for at in range(max(0, middle - 3), min(len(case.sentences), middle + _SENTENCES)):
        sentence = case.sentences[at]
        if sentence.segment != place.segment or not sentence.numbers:
            continue
        values = sentence.values[:12]
        shared = len(mates.intersection(values))
        side = "n" if sentence.end > place.slot.at else "p"
        for value in dict.fromkeys(values):
            if value not in mates:
                yield value, f"c{side}{min(shared, 3)}{min(len(mates), 3)}"


def _stated(place: ShownPlace) -> Iterator[Clue]:
    case = place.book.book.case
    mates = {mate.value for mate in place.mates}
    for start, end, side in (
        (place.slot.at, place.until, "n"),
        (max(place.start, place.slot.at - 25), place.slot.at, "p"),
    ):
        for statement in case.statements_between(start, end)[:_STATEMENTS]:
            kind = statement.kind.split(" by")[0]
            values = statement.values[-4:]
            with_mate = "m" if mates.intersection(values) else ""
            for at, value in enumerate(reversed(values)):
                yield value, f"st{side}{at}{with_mate}:{kind}"
            if statement.expected is not None and not isinstance(statement.expected, bool):
                yield statement.expected, f"sx{side}"


def _other_pictures(place: ShownPlace) -> Iterator[Clue]:
    """What other directions of the segment show."""
    own = place.slot
    name = f"{own.kind}.{own.name}"
    groups = place.book.groups
    for way, most in ((-1, _EARLIER), (1, _LATER)):
        at, found, rank = place.group + way, 0, 0
        while 0 <= at < len(groups) and groups[at][0].direction.segment == place.segment and found < most:
            same = "=" if groups[at][0].direction.name == own.direction.name else ""
            side = f"{'p' if way < 0 else 'n'}{min(rank, 2)}{same}"
            changed = not isinstance(groups[at][0].direction, Show)
            for slot in groups[at]:
                found += 1
                yield slot.value, f"g{side}"
                yield slot.value, f"g{side}:{slot.kind}.{slot.name}>{name}"
                if same or rank < 2:
                    for step in _STEPS:
                        yield slot.value + step, f"g{side}{step:+}>{name}"
                    for mate in place.mates[:2]:
                        yield slot.value - mate.value, f"g{side}-{mate.name}"
                        yield slot.value + mate.value, f"g{side}+{mate.name}"
                    if len(groups[at]) == 2:
                        one, other = (slot.value for slot in groups[at])
                        yield other + (other - one), f"g{side}go{int(changed)}"
                        yield abs(other - one), f"g{side}gap"
            if len(groups[at]) > 1:
                yield sum(slot.value for slot in groups[at]), f"g{side}sum"
            rank += 1
            at += way


def _on_the_screen(place: ShownPlace) -> Iterator[Clue]:
    """What the picture is before the direction changes it, and other pictures that stay on."""
    book = place.book.book
    for seen in book.screen(max(0, place.slot.at - 1), place.slot.at)[:3]:
        side = "=" if seen.moment.name == place.slot.direction.name else ""
        for role, value in book.roles(seen.picture):
            yield value, f"on{side}{role}"
            if side:
                for rank, index in enumerate(place.after[:3]):
                    yield abs(place.number(index).value - value), f"on{rank}-{role}"
                    yield place.number(index).value + value, f"on{rank}+{role}"


def _of_the_segment(place: ShownPlace) -> Iterator[Clue]:
    case = place.book.book.case
    for value, count in case.times_said_in(place.segment).most_common(12):
        yield value, f"seg{min(count, 5)}"
    for value, count in place.book.times[place.segment].most_common(12):
        count -= value == place.value
        if count:
            yield value, f"shown{min(count, 4)}"
    for value, count in place.book.book.most_said[:6]:
        yield value, f"all{min(count // 4, 4)}"
    for value in case.topics.get(place.segment, ()):
        yield value, "topic"
        if value > 9:
            yield value // 10, "topt"
            yield value % 10, "topo"
        for mate in place.mates[:2]:
            yield abs(value - mate.value), "topm"
    for value in case.named_wholes.get(place.segment, ()):
        yield value, "wholes"
        for mate in place.mates[:2]:
            yield value - mate.value, "wholem"
    for value in place.book.book.titles.get(place.segment, ()):
        yield value, "title"
    for value in place.book.book.headings:
        yield value, "heading"
    stories = case.talk.stories
    for story in stories[: bisect_left(stories, place.slot.at + 1, key=lambda story: story.start)][-2:]:
        if story.start < place.start:
            continue
        if story.answer is not None:
            yield story.answer, "sans"
        for at, value in enumerate(story.told[:4]):
            yield value, f"stold{at}"
