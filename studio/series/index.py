"""The index of a series: what is said, shown and used in its lessons, in one SQLite file.

The index holds nothing of its own. It is brought up to date from the files whenever it is opened, only what changed is
read again, and where it is missing or broken it is made anew.
"""

from __future__ import annotations

import errno
import json
import sqlite3
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from studio.errors import UnusableInput
from studio.files import say_os_error
from studio.progress import Progress, silent
from studio.script.files import load_text
from studio.script.model import Lesson, Show
from studio.series.lessons import lesson_files, number_of
from studio.series.library import Expanded, Library, read_expanded
from studio.series.search import normal_picture, normal_said, normal_text
from studio.store import content_key
from studio.talk.model import Statement

OWN = ".studio"
FILE = "index.sqlite"
_VERSION = "8"  # of the tables below and of what is read into them: another version is made anew
_MEMORY = ":memory:"
_TABLES = """
create table about (version text);
create table lesson (
    file text primary key, text_key text, key text, number integer, title text, grade text, standards text,
    words integer, errors integer, warnings integer, mistake text);
create table said (file text, segment text, line integer, words text, normal text);
create table shown (file text, segment text, line integer, name text, kind text, direction text, normal text);
create table used (file text, part text, key text, line integer, given text);
create index said_file on said (file);
create index shown_file on shown (file);
create index used_file on used (file);
"""


@dataclass(frozen=True, slots=True)
class Entry:
    """A lesson as the index knows it. `key` names the content of its script and of every part it uses; `mistake` is why
    it cannot be read ("": it can); `uses` are its parts with their keys."""

    file: str
    key: str
    number: int | None
    title: str
    grade: str
    standards: tuple[str, ...]
    words: int
    errors: int
    warnings: int
    mistake: str
    uses: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Hit:
    """A place where something is said or shown. `direction` is what shows the picture, ready to be used again."""

    file: str
    number: int | None
    title: str
    segment: str
    line: int
    kind: str
    text: str
    direction: str


class Index:
    """The index of one series folder, up to date when it is opened with `open_index`. `remade` is true where the old
    one was broken."""

    def __init__(self, connection: sqlite3.Connection, folder: Path, remade: bool) -> None:
        self._connection = connection
        self.folder = folder
        self.remade = remade

    def entries(self) -> list[Entry]:
        """Every lesson, in the order of its number and name."""
        used: dict[str, dict[str, str]] = {}
        for file, part, key in self._connection.execute("select file, part, key from used"):
            used.setdefault(file, {})[part] = key
        rows = self._connection.execute(
            "select file, key, number, title, grade, standards, words, errors, warnings, mistake from lesson "
            "order by number is null, number, file"
        )
        return [
            Entry(file, key, number, title, grade, tuple(json.loads(standards)), words, errors, warnings, mistake,
                  used.get(file, {}))
            for file, key, number, title, grade, standards, words, errors, warnings, mistake in rows
        ]  # fmt: skip

    def find(self, query: str) -> list[Hit]:
        """Where the words or numbers of `query` are said or shown, in the order of the lessons."""
        normal = normal_text(query)
        if not normal.strip():
            raise UnusableInput('there is nothing to look for; write words or numbers, like "7 + 2".')
        rows = self._connection.execute(
            "select t.file, l.number, l.title, t.segment, t.line, 'said', t.words, '' from said t join lesson l "
            "using (file) where instr(t.normal, :q) union all "
            "select t.file, l.number, l.title, t.segment, t.line, 'shown', t.kind, t.direction from shown t "
            "join lesson l using (file) where instr(t.normal, :q) order by 2, 1, 5",
            {"q": normal},
        )
        return [Hit(*row) for row in rows]

    def coverage(self) -> dict[str, list[str]]:
        """Each standard with the files of the lessons that meet it, most often met first."""
        met: dict[str, list[str]] = {}
        for entry in self.entries():
            for standard in entry.standards:
                met.setdefault(standard, []).append(entry.file)
        return dict(sorted(met.items(), key=lambda item: (-len(item[1]), item[0])))

    def pictures(self) -> Counter[str]:
        """How often each picture is shown, as its direction is written but for its name."""
        rows = self._connection.execute("select direction from shown")
        return Counter(direction.rpartition(" as ")[0] or direction for (direction,) in rows)

    def check_integrity(self) -> bool:
        """Whether SQLite itself finds the file whole."""
        return bool(self._connection.execute("pragma integrity_check").fetchone() == ("ok",))


@contextmanager
def open_index(folder: Path, library: Library | None = None, progress: Progress = silent) -> Iterator[Index]:
    """The index of the series in `folder`, brought up to date. Raises UnusableInput."""
    library = library or Library.of(folder)
    path = folder / OWN / FILE
    try:
        connection, remade = _opened(path, folder, library, progress)
    except (OSError, sqlite3.OperationalError) as error:
        if not _may_not_write(error):
            raise (say_os_error(error, path) if isinstance(error, OSError) else _busy(path, error)) from None
        # A folder that can only be read is read anew each time.
        connection, remade = _connect(_MEMORY), False
        _update(connection, folder, library, progress)
    try:
        yield Index(connection, folder, remade)
    finally:
        connection.close()


def _opened(path: Path, folder: Path, library: Library, progress: Progress) -> tuple[sqlite3.Connection, bool]:
    """The index in its file, up to date, and whether it was broken and is made anew."""
    remade = False
    path.parent.mkdir(exist_ok=True)
    try:
        connection = _connect(path)
    except sqlite3.DatabaseError as error:
        if isinstance(error, sqlite3.OperationalError) and ("locked" in str(error) or _may_not_write(error)):
            raise
        remade = True
        for leftover in (path, path.with_name(FILE + "-journal"), path.with_name(FILE + "-wal")):
            leftover.unlink(missing_ok=True)
        connection = _connect(path)
    try:
        _update(connection, folder, library, progress)
    except BaseException:
        connection.close()
        raise
    return connection, remade


def _may_not_write(error: OSError | sqlite3.Error) -> bool:
    if isinstance(error, OSError):
        return error.errno in (errno.EACCES, errno.EPERM, errno.EROFS)
    return "readonly" in str(error) or "unable to open" in str(error)


def _busy(path: Path, error: sqlite3.OperationalError) -> UnusableInput:
    if "locked" in str(error) or "busy" in str(error):
        return UnusableInput("the index is being used by another command; try again in a moment.", str(path))
    return UnusableInput(f"the index cannot be written ({error}).", str(path))


def _connect(path: Path | str) -> sqlite3.Connection:
    connection = sqlite3.connect(path, timeout=20)
    try:
        if connection.execute("pragma quick_check").fetchone() != ("ok",):
            raise sqlite3.DatabaseError("broken")
        tables = {name for (name,) in connection.execute("select name from sqlite_master where type = 'table'")}
        version = connection.execute("select version from about").fetchone() if "about" in tables else None
        if version != (_VERSION,):
            with connection:
                connection.execute("begin immediate")
                for table in tables:
                    connection.execute(f'drop table "{table}"')
                for statement in filter(str.strip, _TABLES.split(";")):
                    connection.execute(statement)
                connection.execute("insert into about values (?)", (_VERSION,))
        return connection
    except BaseException:
        connection.close()
        raise


def _update(connection: sqlite3.Connection, folder: Path, library: Library, progress: Progress) -> None:
    files = lesson_files(folder)
    known = {
        file: (text_key, key) for file, text_key, key in connection.execute("select file, text_key, key from lesson")
    }
    uses: dict[str, dict[str, str]] = {}
    for file, part, key in connection.execute("select file, part, key from used"):
        uses.setdefault(file, {})[part] = key
    gone = set(known) - {path.name for path in files}
    changed: list[tuple[Path, str]] = []
    parts: dict[str, str] = {}
    for path in files:
        text_key = _text_key(path)
        if known.get(path.name, ("",))[0] != text_key or any(
            _part_key(part, library, parts) != key for part, key in uses.get(path.name, {}).items()
        ):
            changed.append((path, text_key))
    if not gone and not changed:
        return
    with connection:
        connection.execute("begin immediate")
        for file in (*gone, *(path.name for path, _ in changed)):
            for table in ("lesson", "said", "shown", "used"):
                connection.execute(f"delete from {table} where file = ?", (file,))
        for count, (path, text_key) in enumerate(changed):
            progress(count / len(changed), f"reading {path.name}")
            _insert(connection, path, text_key, library)


def _part_key(part: str, library: Library, known: dict[str, str]) -> str:
    if part not in known:
        try:
            known[part] = content_key(library.get(part).text)
        except UnusableInput:
            known[part] = ""
    return known[part]


def _text_key(path: Path) -> str:
    try:
        return content_key(path.read_bytes())
    except OSError:
        return ""


def _insert(connection: sqlite3.Connection, path: Path, text_key: str, library: Library) -> None:
    try:
        lesson, expanded = read_expanded(path, library)
    except UnusableInput as error:
        connection.execute(
            "insert into lesson values (?, ?, ?, ?, '', '', '[]', 0, 0, 0, ?)",
            (path.name, text_key, text_key, number_of(path), UnusableInput(error.problems).sentences()[0]),
        )
        # Its parts still count: when one of them changes, the lesson is read again.
        with suppress(UnusableInput):
            _insert_uses(connection, path.name, load_text(path), library)
        return
    from studio.agree import check

    agreement = check(lesson)
    findings = agreement.findings
    header = lesson.header
    connection.execute(
        "insert into lesson values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, '')",
        (path.name, text_key, lesson_key(text_key, expanded), header.number, header.title, header.grade or "",
         json.dumps(header.standards), len(lesson.words), sum(f.level == "error" for f in findings),
         sum(f.level == "warning" for f in findings)),
    )  # fmt: skip
    connection.executemany("insert into said values (?, ?, ?, ?, ?)", _said(path.name, lesson, agreement.statements))
    connection.executemany("insert into shown values (?, ?, ?, ?, ?, ?, ?)", _shown(path.name, lesson))
    connection.executemany(
        "insert into used values (?, ?, ?, ?, ?)",
        [(path.name, use.name, use.key, use.line, json.dumps(dict(use.values))) for use in expanded.uses],
    )


def _insert_uses(connection: sqlite3.Connection, file: str, text: str, library: Library) -> None:
    import re

    for name in set(re.findall(r"use\(\s*[\"']([^\"']+)", text)):
        key = _part_key(name, library, {})
        connection.execute("insert into used values (?, ?, ?, 0, '{}')", (file, name, key))


def lesson_key(text_key: str, expanded: Expanded) -> str:
    """A name for the content of a lesson: its own text and that of the parts it uses."""
    return content_key(text_key, sorted({use.key for use in expanded.uses})) if expanded.uses else text_key


def _said(file: str, lesson: Lesson, statements: Iterable[Statement]) -> Iterator[tuple[str, str, int, str, str]]:
    # A sum is found however it is said: "four and one make five" has the form "4 + 1 = 5" too.
    written: dict[int, list[str]] = {}
    for statement in statements:
        written.setdefault(lesson.words[statement.start].sentence, []).append(statement.written)
    for segment in lesson.segments:
        start = 0
        words = segment.words
        for end in range(1, len(words) + 1):
            if end == len(words) or words[end].sentence != words[start].sentence:
                sentence = words[start:end]
                text = "".join(("" if word.glued else " ") + word.text for word in sentence).strip()
                yield (
                    file,
                    segment.title,
                    sentence[0].place.line,
                    text,
                    normal_said(sentence, written.get(sentence[0].sentence, ())),
                )
                start = end


def _shown(file: str, lesson: Lesson) -> Iterator[tuple[str, str, int, str, str, str, str]]:
    from studio.stage.staging import stage

    # A picture is found by what it was shown with and by how it stands at last, before another takes its name.
    last = {}
    current: dict[str, Show] = {}
    for moment in stage(lesson).moments:
        if isinstance(moment.direction, Show):
            current[moment.name] = moment.direction
        if moment.picture is not None and moment.name in current:
            last[current[moment.name].place] = moment.picture
    for segment in lesson.segments:
        for direction in segment.directions:
            if isinstance(direction, Show):
                text = " ".join(direction.text.split())
                normal = normal_picture(text, direction.details, last.get(direction.place))
                yield file, segment.title, direction.place.line, direction.name, direction.kind, f"[{text}]", normal
