"""The console command `studio`. Everything heavy is imported only by the verb that needs it."""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from studio.arguments import Parser
from studio.errors import UnusableInput
from studio.progress import bar


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one verb. Returns 0 (fine), 1 (findings at level error) or 2 (the input cannot be used)."""
    for stream in (sys.stdout, sys.stderr):
        # A terminal that knows fewer characters than a lesson is no reason to stop.
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    try:
        code = _run(arguments)
        print(end="", flush=True)
        return code
    except UnusableInput as unusable:
        _say(unusable)
        return 2
    except KeyboardInterrupt:
        print("Stopped. Nothing that stood there was changed; the same command goes on from here.", file=sys.stderr)
        return 130
    except BrokenPipeError:
        _drop_output()
        return 0
    except OSError as error:
        from studio.files import say_os_error

        name = error.filename or ("The file" if _can_print() else "What was to be printed")
        print(say_os_error(error, Path(str(name))), file=sys.stderr)
        return 2


def _run(arguments: Sequence[str] | None) -> int:
    try:
        options = _parser().parse_args(arguments)
    except SystemExit:  # after --help
        return 0
    run: Callable[[argparse.Namespace], int] = options.run
    return run(options)


def _say(unusable: UnusableInput) -> None:
    for sentence in unusable.sentences():
        print(sentence, file=sys.stderr)


def _can_print() -> bool:
    """Whether the output takes what was printed. Where it does not, what is left goes nowhere: Python would try once
    more as it ends."""
    try:
        print(end="", flush=True)
    except OSError:
        _drop_output()
        return False
    return True


def _drop_output() -> None:
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _parser() -> Parser:
    parser = Parser(
        prog="studio",
        description="From a lesson script and a recording to a film whose pictures move with the words, "
        "with captions, chapters and a handout; and a check that every number shown agrees with the numbers said.",
    )
    verbs = parser.add_subparsers(title="what it can do", metavar="VERB", required=True)
    for add in (_demo, _check, _build, _listen, _suggest, _draw, _fill, _handout, _audit, _series):
        add(verbs)
    return parser


def _verb(verbs: Any, name: str, run: Callable[[argparse.Namespace], int], text: str) -> Parser:
    verb: Parser = verbs.add_parser(name, help=text, description=text[:1].upper() + text[1:] + ".")
    verb.set_defaults(run=run)
    return verb


def _json_option(verb: Parser) -> None:
    verb.add_argument("--json", action="store_true", help="print the result as JSON")


def _print_json(value: Any) -> None:
    print(json.dumps(value, ensure_ascii=False, indent=1))


# --- demo -----------------------------------------------------------------------------------------------------------


def _demo(verbs: Any) -> None:
    verb = _verb(verbs, "demo", _run_demo, "build the demo lesson, from script and recording to kit")
    verb.add_argument("--out", type=Path, default=Path("demo-kit"), metavar="DIR", help="where it goes (demo-kit)")


def _run_demo(options: argparse.Namespace) -> int:
    from studio.demo import demo

    with bar("demo") as progress:
        result = demo(options.out, progress=progress)
    print("\n".join(result.lines()))
    return 1 if result.has_errors else 0


# --- check ----------------------------------------------------------------------------------------------------------


def _check(verbs: Any) -> None:
    verb = _verb(verbs, "check", _run_check, "check the arithmetic that is said, and that the pictures agree with it")
    verb.add_argument("lessons", nargs="+", type=Path, metavar="LESSON", help="a lesson script, or a routine")
    verb.add_argument(
        "--json", action="store_true", help="print the result as JSON; of several, a list of those that can be checked"
    )


def _run_check(options: argparse.Namespace) -> int:
    from studio.check import check_file

    checked, unusable = [], []
    for path in options.lessons:
        try:
            checked.append(check_file(path))
        except UnusableInput as error:
            unusable.append(error)
    if len(options.lessons) == 1 and unusable:
        raise unusable[0]
    if options.json:
        values = [result.as_json() for result in checked]
        _print_json(values[0] if len(options.lessons) == 1 else values)
    else:
        for result in checked:
            print("\n".join(result.lines()))
    print(end="", flush=True)
    for refused in unusable:
        _say(refused)
    if unusable:
        return 2
    return 1 if any(result.has_errors for result in checked) else 0


# --- build ----------------------------------------------------------------------------------------------------------


def _build(verbs: Any) -> None:
    verb = _verb(verbs, "build", _run_build, "make the kit: film, captions, chapters, transcript, handout, report")
    verb.add_argument("lesson", type=Path, metavar="LESSON", help="the lesson script")
    verb.add_argument(
        "--recording", type=Path, nargs="+", action="extend", default=[], metavar="FILE", help="her take, or takes"
    )
    verb.free = lambda word: word.lower().endswith(".md")
    verb.add_argument("--out", type=Path, metavar="DIR", help="the kit folder (beside the lesson, named after it)")
    _film_options(verb)
    _json_option(verb)


def _film_options(verb: Parser) -> None:
    verb.add_argument("--theme", help="a theme's name or file (that of its series, or warm paper)")
    verb.add_argument(
        "--format", dest="shape", default="wide", choices=["wide", "square", "tall"], help="screen (wide)"
    )
    verb.add_argument("--fps", type=int, default=30, choices=[24, 25, 30, 50, 60], help="frames a second (30)")
    verb.add_argument("--paper", choices=["letter", "a4"], help="the handout's paper (that of its series, or letter)")
    verb.add_argument(
        "--numerals",
        choices=["as said", "words to ten", "digits"],
        help="how captions write numbers (as its series says, or as said)",
    )
    verb.add_argument("--model", metavar="NAME", help="the speech model: a name or a folder")
    verb.add_argument("--audit", action="store_true", help="open the finished film and count what it shows")


def _film_values(options: argparse.Namespace) -> dict[str, Any]:
    return {name: getattr(options, name) for name in ("theme", "shape", "fps", "paper", "numerals", "model", "audit")}


def _run_build(options: argparse.Namespace) -> int:
    from studio.build import build_kit
    from studio.series.building import lesson_options

    if options.model is not None and not options.recording:
        raise UnusableInput("--model goes with a recording; name that too (--recording FILE), or leave --model out.")
    made = lesson_options(options.lesson, **_film_values(options))
    with bar("build", options.json) as progress:
        result = build_kit(options.lesson, options.recording, options.out, made, progress)
    if options.json:
        _print_json(result.as_json())
    else:
        print("\n".join(result.lines()))
    return 1 if result.has_errors else 0


# --- listen ---------------------------------------------------------------------------------------------------------


def _listen(verbs: Any) -> None:
    verb = _verb(
        verbs, "listen", _run_listen, "write down what is said in a recording and when; with a lesson, where to retake"
    )
    verb.add_argument("recording", type=Path, nargs="+", metavar="RECORDING", help="the take, or takes in order")
    verb.add_argument("--lesson", type=Path, metavar="LESSON", help="the lesson script")
    verb.add_argument("--out", type=Path, metavar="DIR", help="write captions, chapters and words there")
    verb.add_argument("--model", metavar="NAME", help="the speech model: a name or a folder")
    _json_option(verb)


def _run_listen(options: argparse.Namespace) -> int:
    from studio.hear import listen

    with bar("listen", options.json) as progress:
        result = listen(options.recording, options.lesson, options.out, model=options.model, progress=progress)
    if options.json:
        _print_json(result.as_json())
    else:
        print("\n".join(result.lines()))
    return 1 if result.has_errors else 0


# --- suggest --------------------------------------------------------------------------------------------------------


def _suggest(verbs: Any) -> None:
    verb = _verb(verbs, "suggest", _run_suggest, "write directions into a script that has only words")
    verb.add_argument("lesson", type=Path, metavar="LESSON", help="the lesson script; it is not changed")
    verb.add_argument("-o", "--out", type=Path, metavar="FILE", help="write it there (or it is printed)")


def _run_suggest(options: argparse.Namespace) -> int:
    from studio.files import write_text
    from studio.suggest import suggest_file

    text = suggest_file(options.lesson)
    if options.out is not None and options.out.exists() and options.out.samefile(options.lesson):
        raise UnusableInput("this is the script itself, which is not changed; write to another file.", str(options.out))
    if options.out is None:
        print(text, end="")
    else:
        write_text(options.out, text)
        print(f"Written to {options.out}.")
    return 0


# --- draw -----------------------------------------------------------------------------------------------------------


def _draw(verbs: Any) -> None:
    verb = _verb(verbs, "draw", _run_draw, "draw one picture as SVG, PNG, PDF or GIF")
    verb.add_argument("picture", metavar='"KIND: DETAILS"', help='for example "ten frame: 7 dots and 2 crosses"')
    verb.add_argument(
        "changes", nargs="*", default=[], metavar="CHANGE", help='changes to make, for example "add 3 crosses"'
    )
    verb.add_argument("-o", "--out", type=Path, required=True, metavar="FILE", help="a .svg, .png, .pdf or .gif file")
    verb.add_argument("--theme", default="warm paper", help="a theme's name or file (warm paper)")


def _run_draw(options: argparse.Namespace) -> int:
    from studio.pictures.draw import draw

    if ":" not in options.picture and options.changes:
        raise UnusableInput(
            'put what to draw in quotation marks: studio draw "ten frame: 7 dots" -o frame.svg', "studio draw"
        )
    draw(options.picture, options.out, changes=options.changes, theme=options.theme)
    print(f"Drawn to {options.out}.")
    return 0


# --- fill -----------------------------------------------------------------------------------------------------------


def _fill(verbs: Any) -> None:
    verb = _verb(verbs, "fill", _run_fill, "make a lesson from a routine")
    verb.add_argument("routine", metavar="ROUTINE", help="a routine's file, or the name of one on the shelf")
    verb.add_argument("--set", dest="values", action="append", default=[], metavar="NAME=VALUE", help="fill one blank")
    verb.add_argument("-o", "--out", type=Path, metavar="LESSON", help="write the lesson there (or it is printed)")


def _run_fill(options: argparse.Namespace) -> int:
    from studio.series.api import fill_routine

    text = fill_routine(options.routine, options.values, options.out)
    print(text if options.out is None else f"Written to {options.out}.", end="" if options.out is None else "\n")
    return 0


# --- handout --------------------------------------------------------------------------------------------------------


def _handout(verbs: Any) -> None:
    verb = _verb(verbs, "handout", _run_handout, "make what the child needs on paper")
    verb.add_argument("lesson", type=Path, metavar="LESSON", help="the lesson script")
    verb.add_argument("-o", "--out", type=Path, required=True, metavar="FILE.pdf", help="the PDF to write")
    verb.add_argument("--paper", choices=["letter", "a4"], help="the paper (that of its series, or letter)")


def _run_handout(options: argparse.Namespace) -> int:
    from studio.handout import make_handout
    from studio.series.building import lesson_options
    from studio.series.library import load_lesson

    lesson = load_lesson(options.lesson)
    made = lesson_options(options.lesson, paper=options.paper, theme="print")  # whatever theme its series has
    make_handout(lesson, options.out, made.paper)
    print(f"Written to {options.out}.")
    return 0


# --- audit ----------------------------------------------------------------------------------------------------------


def _audit(verbs: Any) -> None:
    verb = _verb(verbs, "audit", _run_audit, "open a finished film and count what it shows")
    verb.add_argument("kit", type=Path, metavar="KIT", help="a kit folder")
    _json_option(verb)


def _run_audit(options: argparse.Namespace) -> int:
    from studio.audit.audit import audit

    with bar("audit", options.json) as progress:
        report = audit(options.kit, progress=progress)
    if options.json:
        _print_json(report.as_json())
    else:
        print("\n".join(report.lines()))
    return 0 if report.fine else 1


# --- series ---------------------------------------------------------------------------------------------------------


def _series(verbs: Any) -> None:
    verb: Parser = verbs.add_parser(
        "series",
        help="a folder of lessons: plan, write, build, find what is reused",
        description="A folder of lessons, planned and written from routines, built when they change.",
    )
    subs = verb.add_subparsers(title="what it can do", metavar="VERB", required=True)
    for add in (_new, _plan, _write, _build_series, _status, _find, _overview, _routines, _save):
        add(subs)


def _folder(verb: Parser) -> None:
    verb.add_argument("folder", type=Path, nargs="?", default=Path(), metavar="FOLDER", help="the series (this folder)")


def _new(subs: Any) -> None:
    verb = _verb(subs, "new", _run_new, "make a series with its settings and its plan")
    verb.add_argument("folder", type=Path, metavar="FOLDER", help="the folder to make")
    verb.add_argument("--title", default="", metavar="TITLE", help="what the series is called (the folder's name)")
    verb.add_argument("--grade", default="K", choices=["K", "1", "2"], help="for which grade (K)")
    verb.add_argument("--first-day", metavar="DAY", help="the first lesson's day, like 2026-09-01")
    verb.add_argument("--lessons", type=int, metavar="N", help="how many lessons (180)")
    verb.add_argument(
        "--holiday",
        dest="holidays",
        action="append",
        default=[],
        metavar="DAYS",
        help='days without a lesson: "2026-11-26" or "2026-12-21 to 2027-01-01"; may be given again',
    )


def _run_new(options: argparse.Namespace) -> int:
    from studio.series.api import new_series
    from studio.series.settings import parse_day

    try:
        first_day = parse_day(options.first_day) if options.first_day is not None else None
    except ValueError as error:
        raise UnusableInput(str(error)) from None
    done = new_series(options.folder, options.title, options.grade, first_day, options.lessons, options.holidays)
    print("\n".join(done.lines()))
    return 0


def _plan(subs: Any) -> None:
    verb = _verb(subs, "plan", _run_plan, "fill in what is empty in the plan; what is written there stays")
    _folder(verb)


def _run_plan(options: argparse.Namespace) -> int:
    from studio.series.api import plan_series

    print("\n".join(plan_series(options.folder).lines()))
    return 0


def _write(subs: Any) -> None:
    verb = _verb(subs, "fill", _run_write, "write the planned lessons that are not there yet")
    _folder(verb)
    verb.add_argument(
        "--only",
        type=int,
        nargs="+",
        action="extend",
        default=[],
        metavar="N",
        help="only the lessons of these numbers",
    )
    verb.free = lambda word: not word.isdecimal()


def _run_write(options: argparse.Namespace) -> int:
    from studio.series.api import fill_series

    done = fill_series(options.folder, options.only)
    print("\n".join(done.lines()))
    return 1 if done.in_the_way else 0


def _build_series(subs: Any) -> None:
    verb = _verb(
        subs,
        "build",
        _run_build_series,
        "build every lesson whose kit is not up to date, with the takes beside it (NAME.take.mp4)",
    )
    _folder(verb)
    verb.add_argument(
        "--only", nargs="+", action="extend", default=[], metavar="LESSON", help="only these: numbers or names"
    )
    verb.free = lambda word: (Path(word) / "series.yaml").is_file()
    _film_options(verb)
    _json_option(verb)


def _run_build_series(options: argparse.Namespace) -> int:
    from studio.series.api import build_series
    from studio.series.building import series_options

    made = series_options(options.folder, **_film_values(options))
    with bar("series", options.json) as progress:
        done = build_series(options.folder, options.only, made, progress)
    if options.json:
        _print_json(done.as_json())
    else:
        print("\n".join(done.lines()))
    return 1 if done.has_errors else 0


def _status(subs: Any) -> None:
    verb = _verb(subs, "status", _run_status, "say where each lesson stands")
    _folder(verb)
    verb.add_argument("--all", action="store_true", help="the planned lessons too")
    _json_option(verb)


def _run_status(options: argparse.Namespace) -> int:
    from studio.series.api import series_status

    with bar("series", options.json) as progress:
        status = series_status(options.folder, progress)
    if options.json:
        _print_json(status.as_json())
    else:
        print("\n".join(status.lines(every=options.all)))
    return 0


def _find(subs: Any) -> None:
    verb = _verb(subs, "find", _run_find, "find every place where something is said or shown")
    verb.add_argument("query", metavar="WORDS", help='for example "7 + 2", "ten frame" or "lily pad"')
    _folder(verb)
    verb.add_argument("--page", action="store_true", help="also write a page that shows the pictures (found.html)")
    _json_option(verb)


def _run_find(options: argparse.Namespace) -> int:
    from studio.series.api import find_in_series, write_found

    with bar("series", options.json) as progress:
        found = find_in_series(options.folder, options.query, progress)
    page = write_found(options.folder, found) if options.page else None
    if options.json:
        _print_json(found.as_json())
        for sentence in found.not_searched():
            print(sentence, file=sys.stderr)
    else:
        print("\n".join(found.lines()))
        if page is not None:
            print(f"The pictures are in {page}.")
    return 0


def _overview(subs: Any) -> None:
    verb = _verb(subs, "overview", _run_overview, "write a page with every lesson and the standards they work on")
    _folder(verb)


def _run_overview(options: argparse.Namespace) -> int:
    from studio.series.api import write_overview

    with bar("series") as progress:
        print(f"Written to {write_overview(options.folder, progress)}.")
    return 0


def _routines(subs: Any) -> None:
    verb = _verb(subs, "routines", _run_routines, "list the routines and parts that a lesson here can use")
    _folder(verb)
    _json_option(verb)


def _run_routines(options: argparse.Namespace) -> int:
    from studio.series.api import shelf

    if not options.folder.is_dir():
        raise UnusableInput("there is no such folder.", str(options.folder))
    found = shelf(options.folder)
    if options.json:
        _print_json([
            {"name": r.name, "source": r.source, "about": r.about, "blanks": {b.name: b.range for b in r.blanks}}
            for r in found
        ])  # fmt: skip
        return 0
    for routine in found:
        print(f"{routine.name}: {routine.about}")
        print("    " + ("; ".join(f"{blank.name}: {blank.range}" for blank in routine.blanks) or "no blanks"))
    return 0


def _save(subs: Any) -> None:
    verb = _verb(subs, "save", _run_save, "save a picture or a segment under a name, to be used in any lesson")
    verb.add_argument("name", metavar="NAME", help="what it is to be called")
    _folder(verb)
    what = verb.add_mutually_exclusive_group(required=True)
    what.add_argument("--picture", metavar='"KIND: DETAILS"', help='for example "ten frame: {{ n }} dots as pond"')
    what.add_argument("--segment", nargs=2, metavar=("LESSON", "TITLE"), help="a segment of a lesson, by its title")
    verb.add_argument(
        "--blank", dest="blanks", action="append", default=[], metavar="NAME=RANGE", help='for example "n=0 to 10"'
    )


def _run_save(options: argparse.Namespace) -> int:
    from studio.series.saving import save_picture, save_segment

    blanks = {}
    for blank in options.blanks:
        name, equals, written = blank.partition("=")
        if not equals or not name.strip() or not written.strip():
            raise UnusableInput(f"'{blank[:60]}' cannot be read; write it like --blank \"n=0 to 10\".")
        blanks[name.strip()] = written.strip()
    if options.picture is not None:
        path = save_picture(options.folder, options.name, options.picture, blanks)
    else:
        if blanks:
            raise UnusableInput("a segment is saved word for word; --blank goes with --picture.")
        path = save_segment(options.folder, options.name, Path(options.segment[0]), options.segment[1])
    print(f"Saved as {path}.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
