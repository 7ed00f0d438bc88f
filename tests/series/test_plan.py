"""The plan: whatever she and her spreadsheet program write stays, and only what is empty is filled."""

from __future__ import annotations

import csv
import io
from datetime import date
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from studio.cli import main
from studio.errors import UnusableInput
from studio.script.model import Grade
from studio.series import api
from studio.series.building import lesson_options
from studio.series.library import Library
from studio.series.plan import check_plan, complete_plan, segments_of
from studio.series.settings import Settings, load_settings, read_settings
from studio.series.situations import GRADES, situations_for
from studio.series.table import COLUMNS, Plan, Row, find_plan, load_plan, parse_call, plan_text

ROW = '1,2026-09-01,,"partners warm up (whole 3, part 1)",1,,'


def series(folder: Path, plan: str | bytes, name: str = "plan.csv") -> Path:
    api.new_series(folder, "Pond Days", lessons=3)
    (folder / "plan.csv").unlink()
    (folder / name).write_bytes(plan if isinstance(plan, bytes) else plan.encode())
    return folder / name


def test_a_yaml_plan_keeps_her_comments_quotes_and_order(tmp_path: Path) -> None:
    written = (
        "# the autumn\n- lesson: 2   # after the trip to the pond\n  title: \"Frogs, again\"\n  materials: 'green card'\n"
        "  story: '-'\n- lesson: 1\n  number of the day: 12\n"
    )
    path = series(tmp_path, written, "plan.yaml")
    assert api.plan_series(tmp_path).added
    text = path.read_text()
    for piece in ("# the autumn\n", "# after the trip to the pond", '"Frogs, again"', "'green card'", "story: '-'"):
        assert piece in text
    rows = yaml.safe_load(text)
    assert [row["lesson"] for row in rows] == [2, 1, 3]
    assert rows[0]["materials"] == "green card" and rows[1]["number of the day"] == 12
    assert all(row[column] for row in rows for column in ("date", "warm-up", "number of the day", "story"))
    assert not api.plan_series(tmp_path).added
    assert path.read_text() == text
    assert [file.name for file in api.fill_series(tmp_path).written] == [
        f"pond-days-{n:03d}.lesson.md" for n in (2, 1, 3)
    ]
    assert "Story" not in (tmp_path / "lessons" / "pond-days-002.lesson.md").read_text()


@pytest.mark.parametrize(
    ("delimiter", "day", "later"),
    [(",", "9/1/2026", "9/14/2026"), (";", "01.09.2026", "14.09.2026"), ("\t", "1/9/2026", "14/9/2026")],
)
def test_a_plan_saved_by_a_spreadsheet_program_is_read_and_keeps_its_form(
    tmp_path: Path, delimiter: str, day: str, later: str
) -> None:
    # Common practice, no source: such programs write a byte order mark, Windows line ends, the delimiter and the dates
    # of the country.
    out = io.StringIO()
    writer = csv.writer(out, delimiter=delimiter, lineterminator="\r\n")
    writer.writerows([COLUMNS, [1, day, "", "", 5, "", ""], [2, later, 'A "title"; with, signs', "", 7, "", ""]])
    path = series(tmp_path, out.getvalue().encode("utf-8-sig"))
    assert [str(row.day) for row in load_plan(tmp_path).rows] == ["2026-09-01", "2026-09-14"]
    api.plan_series(tmp_path)
    data = path.read_bytes()
    assert data.startswith(b"\xef\xbb\xbf") and data.count(b"\r\n") == data.count(b"\n") == 4
    rows = list(csv.reader(io.StringIO(data.decode("utf-8-sig")), delimiter=delimiter))
    assert [row[1] for row in rows[1:3]] == [day, later]
    assert rows[2][2] == 'A "title"; with, signs'
    assert rows[3][1] == "2026-09-15"


@pytest.mark.parametrize("grade", GRADES)
@pytest.mark.parametrize("stretch", [5, 20])
def test_a_year_repeats_nothing_within_the_stretch_and_teaches_situations_in_order(grade: Grade, stretch: int) -> None:
    # The order of the situations is that of CCSSM Table 1 and the Progressions (from memory, see `situations`).
    holidays = ((date(2026, 11, 23), date(2026, 11, 27)), (date(2026, 12, 21), date(2027, 1, 1)))
    year = Settings("Pond Days", grade, stretch=stretch, holidays=holidays, days=(0, 1, 3))
    done = complete_plan(Plan(()), year, Library.of())
    assert len(done.rows) == 180
    for column in ("warm-up", "story"):
        cells = [row.cell(column) for row in done.rows]
        assert all(cell not in cells[max(0, at - stretch) : at] for at, cell in enumerate(cells)), column
    days = [date.fromisoformat(row.cell("date")) for row in done.rows]
    assert days == sorted(set(days)) and {day.weekday() for day in days} == {0, 1, 3}
    assert not [day for day in days for first, last in holidays if first <= day <= last]
    told = list(dict.fromkeys(parse_call(row.cell("story"))[0] for row in done.rows))
    assert told == [situation.routine for situation in situations_for(grade)]
    for kind in ("add to", "take from"):
        order = [name for name in told if name.startswith(f"story {kind}")]
        wanted = [f"story {kind} {unknown} unknown" for unknown in ("result", "change", "start")]
        assert order == wanted[: len(order)]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("hello", "line 1: The plan is a list of lessons"),
        ("lesson: 1", "line 1: The plan is a list of lessons"),
        ("- 1", "line 1: A lesson of the plan is a list"),
        ("- lesson: 1\n  story: [a, b]", "line 1: A lesson of the plan is a list"),
        ("- lesson: 1\n- ? [a]\n  : b", "line 2: A lesson of the plan is a list"),
        ("- lesson: 1\n  story: '-'\n  story: a", "line 3: 'story' stands twice"),
        ("- lesson: 1\n  <<: *x", "line 2: The plan cannot be read"),
        ('- lesson: 1\n  title: "open', "The plan cannot be read"),
    ],
)
def test_a_yaml_plan_that_is_none_is_told(tmp_path: Path, text: str, told: str) -> None:
    path = series(tmp_path, text, "plan.yaml")
    with pytest.raises(UnusableInput) as error:
        api.plan_series(tmp_path)
    assert told in str(error.value) and path.read_text() == text


def test_a_yaml_plan_of_comments_alone_keeps_them(tmp_path: Path) -> None:
    path = series(tmp_path, "# what I have in mind\n", "plan.yaml")
    api.plan_series(tmp_path)
    assert path.read_text().startswith("# what I have in mind\n- lesson: 1\n")
    assert [row.lesson for row in load_plan(tmp_path).rows] == [1, 2, 3]


cells = st.fixed_dictionaries(
    {},
    optional={
        "title": st.sampled_from(["Frogs", "Ducks, again", 'The "big" pond', "—"]),
        "number of the day": st.integers(1, 99).map(str),
        "warm-up": st.sampled_from(["-", "teen numbers (n 14)", "partners warm up (whole 7, part 2)"]),
        "story": st.sampled_from(["-", "doubles (n 4)"]),
        "notes": st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), max_size=20),
        "materials": st.sampled_from(["", "beans"]),
    },
)


@settings(max_examples=25, deadline=None)
@given(st.dictionaries(st.integers(1, 12), cells, max_size=6))
def test_planning_changes_no_cell_that_has_something_in_it(written: dict[int, dict[str, str]]) -> None:
    rows = [Row({"lesson": str(number), **row}) for number, row in sorted(written.items())]
    plan = Plan(tuple(rows), (*COLUMNS, "materials"))
    done = complete_plan(plan, Settings("Pond Days", lessons=12), Library.of())
    assert [row.lesson for row in done.rows] == list(range(1, 13))
    for number, row in written.items():
        after = done.row(number)
        assert after is not None
        assert {column: after.cells[column] for column, cell in row.items() if cell.strip()} == {
            column: cell for column, cell in row.items() if cell.strip()
        }


@pytest.mark.parametrize(
    ("plan", "told"),
    [
        (ROW.replace("whole 3", "whole 99"), "plan.csv, line 2: Lesson 1: 'whole' is 3 to 10"),
        (ROW.replace("partners warm up", "partners warmup"), "Did you mean 'partners warm up'"),
        (ROW.replace("part 1", "part 3"), "needs part < whole"),
        (ROW + "\n" + ROW, "line 3: Lesson 1 stands twice"),
        (ROW.replace("1,", "-4,", 1), "line 2: 'lesson' is a number from 1"),
        (ROW.replace("2026-09-01", "tomorrow"), "'tomorrow' is no date"),
        (ROW.replace("2026-09-01", "31.02.2026"), "'31.02.2026' is no date"),
        (ROW.replace("2026-09-01", "9/1/2026"), "can be read in two ways"),
        (ROW.replace(",1,,", ",500,,"), "not 500"),
        (ROW.replace("1,", "1.000,", 1), "'lesson' is a number from 1, not '1.000'"),
        (ROW.replace('"', "'", 1), "line 2: "),
    ],
)
def test_a_plan_that_cannot_be_is_told_with_its_line_and_left_as_it_is(tmp_path: Path, plan: str, told: str) -> None:
    text = ",".join(COLUMNS) + "\n" + plan + "\n"
    path = series(tmp_path, text)
    for verb in (api.plan_series, api.fill_series):
        with pytest.raises(UnusableInput) as error:
            verb(tmp_path)
        assert told in str(error.value)
    assert path.read_text() == text
    assert not list((tmp_path / "lessons").iterdir())


def test_a_misspelled_column_is_told_and_her_own_columns_stay(tmp_path: Path) -> None:
    path = series(tmp_path, "lesson,storry,materials\n1,-,beans\n")
    with pytest.raises(UnusableInput, match="Did you mean 'story'"):
        api.plan_series(tmp_path)
    path.write_text("lesson,story,materials\n1,-,beans\n")
    api.plan_series(tmp_path)
    assert path.read_text().splitlines()[0].startswith("lesson,story,materials,date")
    assert load_plan(tmp_path).rows[0].cells["materials"] == "beans"
    assert find_plan(tmp_path) == path


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("days: Mon to Fry", "'Mon to Fry' is no day of the week"),
        ("days: Mon-Wed-Fri", "'Mon-Wed-Fri' cannot be read; write the days like 'Mon to Fri'"),
        ("days: Monkeys", "'Monkeys' is no day of the week"),
        ("theme: pink", "There is no theme 'pink'."),
        ("wholes: 3 to 4", "have 5 pairs of parts; a stretch of 10 lessons"),
        ("holidays: [2026-01-01 to 2036-01-01]", "no school day for three years"),
        ("days: [Funday]", "'Funday' is no day of the week"),
        ("colour: red", "There is no setting 'colour'"),
        ("paper: a5", "'paper' is letter or a4, not 'a5'"),
        ("numerals: roman", "'numerals' is as said, words to ten or digits"),
    ],
)
def test_settings_that_cannot_be_are_told(tmp_path: Path, line: str, told: str) -> None:
    api.new_series(tmp_path, "Pond Days", lessons=30)
    path = tmp_path / "series.yaml"
    key = line.split(":")[0]
    path.write_text(
        "".join(f"{row}\n" for row in path.read_text().splitlines() if not row.startswith(key)) + line + "\n"
    )
    (tmp_path / "plan.csv").unlink()
    with pytest.raises(UnusableInput) as error:
        api.plan_series(tmp_path)
    assert "series.yaml" in str(error.value) and told in str(error.value)


@pytest.mark.parametrize(
    ("written", "days"),
    [("Mon to Fri", "01234"), ("Mon-Fri", "01234"), ("Monday – Wednesday, Fri", "0124"), ("Mon Tue Wed", "012"),
     ("[Tue, Thu]", "13"), ("Mondays and Thursdays", "03"), ("[Mon to Wed, Sat]", "0125"), ("Sat to Tue", "0156"),
     ("wed", "2"), ("Thurs", "3")],
)  # fmt: skip
def test_days_of_the_week_are_read_as_they_are_written(written: str, days: str) -> None:
    read = read_settings(f"title: Pond\ndays: {written}\n")
    assert read.days == tuple(map(int, days))


def test_a_wrong_theme_is_told_once_with_its_line_by_every_verb(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    api.new_series(tmp_path, "Pond Days", lessons=3)
    api.fill_series(tmp_path)
    path = tmp_path / "series.yaml"
    path.write_text(path.read_text().replace("theme: warm paper", "theme: pink"))
    capsys.readouterr()
    for verb in (["plan"], ["fill"], ["build"], ["status"], ["find", "frog"], ["overview"]):
        assert main(["series", *verb, str(tmp_path)]) == 2, verb
        told = capsys.readouterr().err.splitlines()
        assert len(told) == 1 and "series.yaml, line 12" in told[0] and "There is no theme 'pink'" in told[0]


def test_a_wrong_theme_stops_only_what_uses_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    api.new_series(tmp_path, "Pond Days", lessons=3)
    path = tmp_path / "series.yaml"
    path.write_text(path.read_text().replace("theme: warm paper", "theme: pink").replace("letter ", "a4 "))
    script = tmp_path / "lessons" / "frogs.lesson.md"
    script.write_text("---\ntitle: Frogs\n---\nTwo frogs swim.\n")
    assert main(["handout", str(script), "-o", str(tmp_path / "frogs.pdf")]) == 0
    assert float(PdfReader(tmp_path / "frogs.pdf").pages[0].mediabox.width) < 600
    made = lesson_options(script, theme="print")
    assert (made.theme, made.paper) == ("print", "a4")
    capsys.readouterr()
    assert main(["build", str(script)]) == 2
    (told,) = capsys.readouterr().err.splitlines()
    assert "series.yaml, line 12, " in told and "There is no theme 'pink'" in told


def test_a_theme_of_her_own_lies_beside_the_settings(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    api.new_series(tmp_path, "Pond Days", lessons=3)
    path = tmp_path / "series.yaml"
    path.write_text(path.read_text().replace("theme: warm paper", "theme: mine.toml"))
    with pytest.raises(UnusableInput, match=r"There is no theme 'mine\.toml'"):
        load_settings(tmp_path)
    (tmp_path / "mine.toml").write_text('name = "mine"\nlike = "warm paper"\n')
    monkeypatch.chdir("/")
    assert load_settings(tmp_path).theme == str(tmp_path / "mine.toml")


def table(text: str, delimiter: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text.removeprefix("\ufeff"), newline=""), delimiter=delimiter))


@st.composite
def muddled(draw: st.DrawFn) -> tuple[str, str]:
    """A plan as it comes out of a spreadsheet after a busy week: columns moved, doubled or without a heading, cells
    beyond the last of them, empty rows, odd words. Now and then it has what no plan can have."""
    seldom = st.integers(0, 29).map(lambda n: n == 17)
    odd = st.sampled_from(["", " ", "-", "–", "14", "14,0", "14.0", "fourteen", "121", "frogs; ducks", 'a "pad"', "1\n2",
                           "a\rb", "teen numbers (n 14)", "lily pads", "2026-09-07", "9/7/2026", "=A1"])  # fmt: skip
    headings = [*COLUMNS[:1], *draw(st.permutations(COLUMNS[1:]))][: draw(st.integers(2, len(COLUMNS)))]
    for _ in range(draw(st.integers(0, 3))):
        may_not = [h for h in ("date ", "Notes", "story") if draw(seldom)]
        heading = st.sampled_from(may_not or ["", "materials", "notes", "column 8", "room"])
        headings.insert(draw(st.integers(0, len(headings))), draw(heading))
    rows = []
    for number in draw(st.lists(st.sampled_from(["1", "2", "4", "03", "five"]), max_size=4, unique=True)):
        amount = draw(st.sampled_from(["", "-", "–", "14", "14,0", "14.0", "fourteen", "teen numbers (n 14)"]))
        day = draw(st.sampled_from(["", "2026-09-07", "07.09.2026", "9/27/2026"]))
        own = {"lesson": number, "date": day, "story": "-", "warm-up": "", "number of the day": amount}
        rows.append([own[h] if h in own and not draw(seldom) else draw(odd) for h in headings])
        rows[-1] += draw(st.lists(odd, max_size=2))
        rows += draw(st.sampled_from([[], [], [[]], [[""] * 3]]))
    delimiter, ends = draw(st.sampled_from([",", ";", "\t"])), draw(st.sampled_from(["\n", "\r\n"]))
    out = io.StringIO()
    csv.writer(out, delimiter=delimiter, lineterminator=ends, quoting=csv.QUOTE_ALL).writerows([headings, *rows])
    return draw(st.sampled_from(["", "\ufeff"])) + out.getvalue(), delimiter


SHELF = Library.of()


def planned(path: Path) -> str:
    """The text of the plan when it is completed."""
    done = complete_plan(load_plan(path.parent), Settings("Pond Days", lessons=3), SHELF)
    check_plan(done, SHELF)
    return plan_text(done)


@settings(max_examples=100, deadline=None)
@given(muddled())
def test_every_cell_of_a_muddled_plan_stays_at_its_place_or_the_plan_is_refused(
    tmp_path_factory: pytest.TempPathFactory, plan: tuple[str, str]
) -> None:
    text, delimiter = plan
    path = tmp_path_factory.getbasetemp() / "plan.csv"
    path.write_bytes(text.encode())
    try:
        written = planned(path)
    except UnusableInput:
        return  # and nothing is written
    after = iter(table(written, delimiter))
    for row in table(text, delimiter):  # each row is found again, in their order
        assert any(
            all(i < len(other) and other[i] == cell for i, cell in enumerate(row) if cell.strip())
            and any(map(str.strip, row)) == any(map(str.strip, other))
            for other in after
        ), row
    path.write_bytes(written.encode())
    assert planned(path) == written


@pytest.mark.parametrize(
    ("headings", "row"),
    [("notes", ",bring the red cards"), ("notes,,", ",,red cards"), ("notes,notes", "my own note,groups of 3"),
     ("notes,materials,materials", ",beans,,cards"), ("notes,column 8,", ",beans,cards")],
)  # fmt: skip
def test_words_under_no_heading_of_their_own_and_empty_rows_stay(tmp_path: Path, headings: str, row: str) -> None:
    text = f"lesson,date,title,warm-up,number of the day,story,{headings}\n1,,,,,,{row}\n\n3,,,,,,\n"
    path = series(tmp_path, text)
    assert api.plan_series(tmp_path).added
    lines = path.read_text().split("\n")
    assert lines[0] == text.split("\n")[0]
    assert lines[1].startswith("1,2026-09-01,") and lines[1].endswith(row) and lines[2].startswith("2,")
    assert lines[3] == "" and lines[4].startswith("3,")


def test_a_heading_that_the_plan_reads_cannot_stand_twice(tmp_path: Path) -> None:
    text = "lesson,story,story\n1,doubles (n 4),-\n"
    path = series(tmp_path, text)
    with pytest.raises(UnusableInput, match="line 1: The heading 'story' stands twice"):
        api.plan_series(tmp_path)
    assert path.read_text() == text


@pytest.mark.parametrize("data", [b"PK\x03\x04" + bytes(40), b"\xd0\xcf\x11\xe0" + bytes(40), b"lesson\0"])
def test_a_spreadsheet_that_is_no_csv_is_told_how_to_save_it(tmp_path: Path, data: bytes) -> None:
    path = series(tmp_path, data)
    with pytest.raises(UnusableInput, match="save the table as CSV under this name"):
        api.plan_series(tmp_path)
    assert path.read_bytes() == data


@pytest.mark.parametrize(
    ("cell", "number"),
    [("14", 14), ("14.0", 14), ("14,00", 14), ("fourteen", 14), ("21", 21), ("–", None), ("-", None)],
)
def test_a_number_of_the_day_is_read_as_a_spreadsheet_program_writes_it(
    tmp_path: Path, cell: str, number: int | None
) -> None:
    series(tmp_path, f'lesson,warm-up,number of the day,story\n1,-,"{cell}",doubles (n 4)\n')
    api.plan_series(tmp_path)
    (row, *_) = load_plan(tmp_path).rows
    assert row.cell("number of the day") == cell
    assert [values["n"] for name, values in segments_of(row) if name.startswith("number")] == (
        [number] if number else []
    )


@pytest.mark.parametrize(
    ("name", "text"),
    [("plan.csv", 'lesson,title\n1.0,Frogs\n"2,00",Ducks\nthree,Otters\n'),
     ("plan.yaml", "- lesson: 1.0\n  title: Frogs\n- lesson: 2,00\n  title: Ducks\n- lesson: three\n  title: Otters\n")],
)  # fmt: skip
def test_the_number_of_a_lesson_is_read_as_a_spreadsheet_program_writes_it(
    tmp_path: Path, name: str, text: str
) -> None:
    path = series(tmp_path, text, name)
    api.plan_series(tmp_path)
    assert [(row.lesson, row.cell("title")) for row in load_plan(tmp_path).rows] == [
        (1, "Frogs"), (2, "Ducks"), (3, "Otters")
    ]  # fmt: skip
    assert all(written in path.read_text() for written in ("1.0", "2,00", "three"))


@pytest.mark.parametrize("cell", ["14,5", "1/4", "#REF!", "14 frogs", "…", "1.000", "1,000"])
def test_a_number_of_the_day_that_is_none_is_told_what_the_column_takes(tmp_path: Path, cell: str) -> None:
    series(tmp_path, f'lesson,number of the day\n1,"{cell}"\n')
    with pytest.raises(UnusableInput, match="line 2: 'number of the day' takes a whole number, like 14, or a routine"):
        api.plan_series(tmp_path)


def test_a_second_plan_that_is_not_read_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    api.new_series(tmp_path, "Pond Days", lessons=3)
    (tmp_path / "plan.yaml").write_text("- lesson: 1\n")
    for verb in ("plan", "status"):
        assert main(["series", verb, str(tmp_path)]) == 0
        assert "plan.yaml is not read, because plan.csv is there; keep one of them." in capsys.readouterr().out
