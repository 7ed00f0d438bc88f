"""What is said of something on the screen is what the screen shows: dots, crosses, empty places, rows, tens, ones, the
whole and its parts."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from studio.agree.case import Appearance, Case, Sentence
from studio.agree.claimed import is_put_right
from studio.agree.implied import LACKS, TO_COME
from studio.agree.mentions import Mention, in_role, mentions, roles, told_by
from studio.agree.of_others import is_of_another
from studio.agree.wording import SUPPOSED, row
from studio.findings import Finding
from studio.pictures.base import Picture
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.tally import Tally
from studio.pictures.marks import MarkPicture
from studio.pictures.wholes import WholePicture
from studio.script.model import Add, Change, ChangePicture, TakeAway
from studio.talk.model import Number

NAME = "said as shown"
_NEAR = 6  # words
_WORKED = ("equal", "chain")
_LONGEST_WORKED = 20  # words
_THINGS = {
    "empty": "empty places", "top": "in the top row", "bottom": "in the bottom row", "crosses": "crosses",
    "dots": "dots", "tens": "tens", "ones": "ones", "whole": "as the whole", "part": "as a part",
}  # fmt: skip


def find(case: Case) -> Iterator[Finding]:
    if not case.pictures:
        return
    yield from _compare(case, mentions(case.talk.speech), told_by)
    yield from _compare(case, roles(case.talk.speech), in_role)


def _compare(
    case: Case, found: Iterable[Mention], allowed: Callable[[Picture, str], frozenset[int] | None]
) -> Iterator[Finding]:
    for mention in found:
        number = mention.number
        index = case.sentence_index(number.start)
        sentence = case.sentences[index]
        if case.is_excused(sentence.start, sentence.end):
            continue
        start = sentence.start
        end = sentence.end + 1
        if index + 1 < len(case.sentences) and case.sentences[index + 1].segment == sentence.segment:
            end = case.sentences[index + 1].end
        values: set[int] = set()
        shown = None
        seen = case.on_screen(start, end)
        if mention.of in ("top", "bottom") and (
            number.value == 1 or any(isinstance(other.picture, WholePicture) for other in seen)
        ):
            continue  # a bond has a top, too; "every bead has one right below it"
        if mention.of in ("top", "bottom") and case.has_word(sentence, _NOT_THERE):
            continue  # "Four beads are missing, two on the top", "three beads below stay back"
        if mention.of in ("top", "bottom") and _are_whole_pictures(number, seen):
            continue  # "[show double ten frame: 20 dots as upper] [show ten frame: 4 dots as lower] Twenty above, four below."
        if mention.of in ("tens", "ones") and case.says(
            max(sentence.start, number.start - 6), number.start, ("was", "were", "had", "from")
        ):
            continue  # "58 was 5 tens and 8 ones", before some were taken
        if mention.of in ("dots", "crosses") and (
            case.says(number.end, min(sentence.end, number.end + _SOON), _OF_A_ROW)
            or case.says(max(sentence.start, number.start - _SOON), number.start, ("row", "rows"))
        ):
            continue  # "five rows, and there are five dots in each row", "the top row is full, with five dots"
        if [word.plain for word in case.talk.words[max(0, number.start - 2) : number.start]] == ["room", "for"]:
            continue  # "The frames have room for 20 dots"
        if mention.of == "dots" and case.says(max(sentence.start, number.start - _LACKED), number.start, _LACKING):
            continue  # "The second frame lacks four dots to be full"
        if mention.of == "dots" and _of_a_frame_row(case, sentence, seen, number.value):
            continue  # "The top row has five dots. Under it I see two dots."
        if mention.of == "empty" and case.says(sentence.start, number.start, ("rows",)):
            continue  # "Three rows are full and one is empty."
        if mention.of in ("tens", "ones") and case.says(number.end, number.end + _NEAR, _BECAME):
            continue  # "[show base ten: 33] So two rods became three."
        if mention.of == "tens" and 10 * number.value in case.said_in(sentence.segment):
            continue  # "Ten tens make a hundred"
        if mention.of in ("tens", "ones") and _of_a_named_number(sentence, mention, seen):
            continue  # "Fifty-one is more, five tens against one ten", beside an older picture
        if mention.of in ("tens", "ones") and _is_worked_with(case, number):
            continue  # "Four tens and two tens, six tens. Six tens and eleven ones are seventy-one."
        if mention.of == "ones" and number.value > _TEN and case.says(number.end, number.end + _NEAR, ("ten",)):
            continue  # "Eleven ones is a ten and a one"
        if mention.of == "ones" and all(case.says(number.end, number.end + _NEAR, (word,)) for word in ("less", "ten")):
            continue  # "Even nine ones are less than a ten"
        if mention.of == "ones" and (
            _made_a_ten(case, sentence, number.value)
            or (case.says(number.start - 1, number.start, ("the",)) and _was_there(seen, number.value))
        ):
            continue  # "[base ten: add 1] With the nine ones, another."
        if is_of_another(case, mention, seen):
            continue
        if mention.of in ("dots", "crosses") and _of_so_many(case, number, seen):
            continue  # "[dots: take away 2] My hand covers two of the seven dots."
        sort = mention.of
        if sort in ("top", "bottom"):
            is_empty = _asks_what_is_left(case, index) or case.says(number.end, number.end + _NEAR, TO_COME)
            sort = f"{sort} {'left' if is_empty else _thing(case, mention)}"
        frame = _frame_named(case, mention)
        if _goes_yet(case, mention) or _comes_yet(case, mention) or _has_gone(case, mention):
            continue
        for appearance in seen:
            fits = allowed(appearance.picture, mention.of)
            if fits is not None:
                values |= fits | (allowed(appearance.picture, sort) or frozenset())
                values |= (frame and allowed(appearance.picture, frame)) or frozenset()
                if appearance.moment.word <= number.end:
                    shown = appearance
        if (
            shown is None
            or number.value in values
            or (mention.of in ("tens", "ones") and case.covering.get(number.start))
        ):
            continue
        asked = case.asks(sentence)
        if mention.of in ("tens", "ones") and any(
            isinstance(other.picture, MarkPicture) and other.picture.total == number.value for other in seen
        ):
            continue  # two tens as blocks, and thirteen ones as dots beside them
        if mention.of == "ones" and any(
            isinstance(other.picture, Tally) and other.picture.value % 5 == number.value for other in seen
        ):
            continue  # "there are only four loose ones", of strokes beside the blocks
        if mention.of in ("tens", "ones") and (
            _shared(case, sentence) or _changes_by(case, sentence, number.value) or _changed_by(case, number)
        ):
            continue
        if mention.of in ("tens", "ones") and (asked or _of_tallies(case, sentence) or _moves(case, sentence, number)):
            continue
        handled = number.value < max(values, default=0) and (
            case.says(max(sentence.start, number.start - 3), number.start, _HANDLED) or _is_covered(case, index)
        )
        corrected = case.says(number.end, number.end + _SOON, _CORRECTED)
        supposed = (
            handled
            or corrected
            or is_put_right(case, number.start, values)
            or case.has_word(sentence, SUPPOSED)
            or case.has_word(sentence, _TAKEN_BACK)
        )
        description = shown.picture.description()
        yield Finding(
            NAME,
            "note" if supposed else "error",
            number.line,
            number.column,
            number.text,
            shown.moment.direction.text,
            f"Line {number.line} says {number.value} {_THINGS[mention.of]}, but the screen shows: {description}.",
            f"Say {row(sorted(values), 'or')}, or change the direction on line {shown.moment.direction.place.line}.",
        )


def _is_worked_with(case: Case, number: Number) -> bool:
    """Whether it stands in what is told to be equal, and is so."""
    return any(
        statement.kind in _WORKED and statement.holds and statement.start <= number.start < statement.end
        for statement in case.statements_between(number.start - _LONGEST_WORKED, number.end)
    )


def _are_whole_pictures(number: Number, seen: Iterable[Appearance]) -> bool:
    """Whether it is how many things one of several pictures has that are on the screen together."""
    amounts = [one.picture.total for one in seen if isinstance(one.picture, MarkPicture)]
    return len(amounts) > 1 and number.value in amounts


def _of_so_many(case: Case, number: Number, seen: Iterable[Appearance]) -> bool:
    """Whether it tells of how many some are taken, and a picture shows the others."""
    words, start = case.talk.words, number.start
    if [word.plain for word in words[max(0, start - 2) : start]] != ["of", "the"]:
        return False
    rest = {number.value - taken.value for taken in case.numbers_between(start - 3, start - 2)}
    return any(not rest.isdisjoint(one.picture.numbers) for one in seen)


def _is_covered(case: Case, index: int) -> bool:
    """Whether a part of it was to be covered shortly before ("Cover four tens with your hand. What peeks out? Two tens.")."""
    first, _ = case.sentences_around(index, 2, 0)
    return case.says(case.sentences[first].start, case.sentences[index].start, _COVERED)


def _of_a_named_number(sentence: Sentence, mention: Mention, seen: Iterable[Appearance]) -> bool:
    """Whether the tens or ones are those of a number that the sentence names and no picture shows."""
    shown = {value for appearance in seen for value in appearance.picture.numbers}
    others = (divmod(value, 10) for value in sentence.values if value > 9 and value not in shown)
    return mention.number.value in [ten if mention.of == "tens" else one for ten, one in others]


def _thing(case: Case, mention: Mention) -> str:
    """The word behind a number."""
    words = case.talk.words
    return words[mention.number.end].plain if mention.number.end < len(words) else ""


def _asks_what_is_left(case: Case, index: int) -> bool:
    """Whether the sentence before asks for what was not moved ("How many beads did I leave? Three on the bottom row")."""
    before = case.question_before(index)
    return before is not None and case.has_word(before, _LEFT)


def _frame_named(case: Case, mention: Mention) -> str:
    """The rows of one of two frames, where that frame is named before in the sentence ("The second frame has five dots on
    top and two below"); "" where none is."""
    if mention.of not in ("top", "bottom"):
        return ""
    words = case.talk.words
    start = case.sentences[case.sentence_index(mention.number.start)].start
    for at in range(mention.number.start - 1, start, -1):
        named = words[at - 1].plain
        if named in _FRAMES and (words[at].plain == "frame" or words[at - 1].text.endswith(",")):
            return f"{mention.of} of frame {_FRAMES[named]}"
    return ""


def _goes_yet(case: Case, mention: Mention) -> bool:
    """Whether so many are about to go, and the next that happens takes just so many away ("Three dots go. Which boxes will be
    empty?")."""
    number = mention.number
    if mention.of not in ("dots", "crosses") or not case.says(number.end + 1, number.end + 3, _GOING):
        return False
    change = _next_change(case, number)
    return isinstance(change, TakeAway) and change.count == number.value


def _has_gone(case: Case, mention: Mention) -> bool:
    """Whether so many came or went, and what happened last in the segment did just so ("[frame: take away 5] Five dots were taken off.")."""
    number = mention.number
    if mention.of not in ("dots", "crosses") or not case.says(number.end, number.end + _NEAR, _CHANGED):
        return False
    start, _ = case.segment_around(number.start)
    *_, change = None, *_changes(case, start, number.end)
    return isinstance(change, Add | TakeAway) and change.count == number.value


def _comes_yet(case: Case, mention: Mention) -> bool:
    """Whether something else has so many, and the next that happens in the segment adds just so many ("Your piece had nine dots.
    Will they fit? [frame: add 9 crosses]")."""
    number = mention.number
    sentence = case.sentences[case.sentence_index(number.start)]
    if mention.of not in ("dots", "crosses") or not case.says(sentence.start, number.start, _HAVING):
        return False
    change = _next_change(case, number)
    return isinstance(change, Add) and change.count == number.value


def _next_change(case: Case, number: Number) -> Change | None:
    """What happens next to a picture of the segment once a number is said."""
    _, end = case.segment_around(number.start)
    return next(_changes(case, number.start, end), None)


def _changes(case: Case, start: int, end: int) -> Iterator[Change]:
    """What happens to pictures from word `start` to before word `end`, in order."""
    for moment in case.moments_between(start, end):
        if isinstance(moment.direction, ChangePicture):
            yield moment.direction.change


_HAVING = ("had", "has", "have")
_GOING = frozenset("go goes going leave leaves leaving vanish vanishes".split())
_DONE = frozenset("added put brought gave got took removed lost came went left moved".split())
_CHANGED = _DONE | frozenset("away off gone taken".split())
_FRAMES = {"first": 1, "left": 1, "second": 2, "other": 2, "right": 2, "next": 2}
_SOON = 6  # words
_TEN = 10
_OF_A_ROW = ("each", "every", "row", "rows")
_UNDER = ("under", "below", "underneath", "beneath")
_HANDLED = frozenset(  # "I slide two crosses over to the eight", "I rub out two dots"
    "slide move take borrow give shift bring carry push pull rub erase wipe cover hide use lend lift steal".split()
)
_COVERED = frozenset("cover covered covers covering peek peeks peeking".split())
_BECAME = frozenset("became become becomes".split())
_NOT_THERE = frozenset("missing empty hidden hide hiding back rest without short unused spare".split())
_LACKING = LACKS | {"wants", "needs"}
_LACKED = 3  # words
_LEFT = _NOT_THERE | {"leave", "left"}
_MAKING = frozenset("make makes made become becomes became fill fills filled".split())
_CORRECTED = ("sorry",)  # "Eight on the bottom... sorry, the top floor"
_TAKEN_BACK = frozenset("oh oops whoops wait hang silly".split())  # "six little squares, oh no, it's five"


def _of_tallies(case: Case, sentence: Sentence) -> bool:
    """ "Three fives and two ones"."""
    return case.has_word(sentence, ("fives", "tally", "tallies", "bundle", "bundles"))


def _was_there(seen: Iterable[Appearance], ones: int) -> bool:
    """Whether a picture showed so many ones just before it was changed."""
    return any(isinstance(one.before, BaseTen) and one.before.ones == ones for one in seen)


def _of_a_frame_row(case: Case, sentence: Sentence, seen: Iterable[Appearance], value: int) -> bool:
    """Whether so many stand in one of the rows of a frame, and rows are spoken of, at once or just before ("Check the bottom row.
    Three dots are there.")."""
    index = case.sentence_index(sentence.start)
    before = case.sentences[max(0, index - 1)]
    spoken_of = case.has_word(sentence, ("row", "rows", *_UNDER)) or (
        not before.numbers and case.has_word(before, ("row",))
    )
    return spoken_of and any(
        value in rows for other in seen for of in ("top", "bottom") if (rows := told_by(other.picture, of))
    )


def _shared(case: Case, sentence: Sentence) -> bool:
    """ "Half of the squares is four squares" """
    return case.has_word(sentence, ("half", "share", "each"))


def _changes_by(case: Case, sentence: Sentence, value: int) -> bool:
    """Whether so many come or go about that time ("[blocks: add 2, counting] And two cubes. Thirty-five, thirty-six."),
    or it tells the tens and the ones of what does ("[blocks: add 25] And again, two lines, five squares")."""
    return any(
        count in (value, 10 * value) or divmod(count, 10) == sentence.values
        for count in case.changed_by(sentence.start - _SOON, sentence.end + _SOON)
    )


def _changed_by(case: Case, number: Number) -> bool:
    """Whether it looks back at a change of the segment by so many ("I added three ones. Then I added a ten. One line is more than
    three squares.")."""
    sentence = case.sentences[case.sentence_index(number.start)]
    done = case.says(max(sentence.start, number.start - _SOON), number.start, _DONE)
    if not done and not case.says(number.start - 1, number.start, ("than",)):
        return False
    return any(
        isinstance(seen.change, Add | TakeAway)
        and seen.change.count in (number.value, 10 * number.value)
        and seen.moment.word <= number.start
        for seen in case.pictures_of(sentence.segment)
    )


def _made_a_ten(case: Case, sentence: Sentence, value: int) -> bool:
    """Whether so many ones, of a number that the segment names, became part of a ten ("The seven ones and three of the five
    made a new ten", for 27 + 5 = 32)."""
    words = [word.plain for word in case.talk.words[sentence.start : sentence.end]]
    made = any(word in _MAKING and "ten" in words[at + 1 : at + 4] for at, word in enumerate(words))
    return made and any(said > 9 and said % 10 == value for said in case.said_in(sentence.segment))


def _moves(case: Case, sentence: Sentence, number: Number) -> bool:
    """Whether what is counted comes, goes or is traded ("Four more squares are coming", "Ten ones are traded", "Then come a ten and
    four ones")."""
    before = max(sentence.start, number.start - _SOON)
    return case.says(number.end, number.end + 5, _MOVING) or case.says(before, number.start, _COMING)


_COMING = frozenset("come comes came".split())
_MOVING = frozenset(
    "away more coming come comes trade traded swap swapped make makes for into become becomes turn go goes add added".split()
)
