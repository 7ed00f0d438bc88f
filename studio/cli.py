"""The console command `studio`. Everything heavy is imported only by the verb that needs it."""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from studio.errors import UnusableInput
from studio.progress import bar


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one verb. Returns 0 (fine), 1 (findings at level error) or 2 (the input cannot be used)."""
    for stream in (sys.stdout, sys.stderr):
        # A terminal that knows fewer characters than a lesson is no reason to stop.
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    options = _parser().parse_args(arguments)
    run: Callable[[argparse.Namespace], int] = options.run
    try:
        return run(options)
    except UnusableInput as unusable:
        for sentence in unusable.sentences():
            print(sentence, file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        print("Stopped. Nothing that stood there was changed; the same command goes on from here.", file=sys.stderr)
        return 130
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except OSError as error:
        from studio.files import say_os_error

        print(say_os_error(error, Path(str(error.filename or "The file"))), file=sys.stderr)
        return 2


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="studio",
        description="From a lesson script and a recording to a film whose pictures move with the words, "
        "with captions, chapters and a handout; and a check that every number shown agrees with the numbers said.",
    )
    verbs = parser.add_subparsers(title="what it can do", metavar="VERB", required=True)
    for add in (_demo, _check, _build, _listen, _suggest, _draw, _fill, _handout, _audit):
        add(verbs)
    return parser


def _verb(verbs: Any, name: str, run: Callable[[argparse.Namespace], int], text: str) -> argparse.ArgumentParser:
    verb: argparse.ArgumentParser = verbs.add_parser(name, help=text, description=text[:1].upper() + text[1:] + ".")
    verb.set_defaults(run=run)
    return verb


def _json_option(verb: argparse.ArgumentParser) -> None:
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
    _json_option(verb)


def _run_check(options: argparse.Namespace) -> int:
    from studio.check import check_file

    checked = [check_file(path) for path in options.lessons]
    if options.json:
        values = [result.as_json() for result in checked]
        _print_json(values[0] if len(values) == 1 else values)
    else:
        for result in checked:
            print("\n".join(result.lines()))
    return 1 if any(result.has_errors for result in checked) else 0


# --- build ----------------------------------------------------------------------------------------------------------


def _build(verbs: Any) -> None:
    verb = _verb(verbs, "build", _run_build, "make the kit: film, captions, chapters, transcript, handout, report")
    verb.add_argument("lesson", type=Path, metavar="LESSON", help="the lesson script")
    verb.add_argument("--recording", type=Path, nargs="+", default=[], metavar="FILE", help="her take, or takes")
    verb.add_argument("--out", type=Path, metavar="DIR", help="the kit folder (beside the lesson, named after it)")
    verb.add_argument("--theme", default="warm paper", help="a theme's name or file (warm paper)")
    verb.add_argument(
        "--format", dest="shape", default="wide", choices=["wide", "square", "tall"], help="screen (wide)"
    )
    verb.add_argument("--fps", type=int, default=30, choices=[24, 25, 30, 50, 60], help="frames a second (30)")
    verb.add_argument("--paper", default="letter", choices=["letter", "a4"], help="the handout's paper (letter)")
    verb.add_argument(
        "--numerals",
        default="as said",
        choices=["as said", "words to ten", "digits"],
        help="how captions write numbers (as said)",
    )
    verb.add_argument("--model", metavar="NAME", help="the speech model: a name or a folder")
    verb.add_argument("--audit", action="store_true", help="open the finished film and count what it shows")
    _json_option(verb)


def _run_build(options: argparse.Namespace) -> int:
    from studio.build import BuildOptions, build_kit

    settings = BuildOptions(
        theme=options.theme,
        shape=options.shape,
        fps=options.fps,
        paper=options.paper,
        numerals=options.numerals,
        model=options.model,
        audit=options.audit,
    )
    with bar("build", options.json) as progress:
        result = build_kit(options.lesson, options.recording, options.out, settings, progress)
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
    verb.add_argument("changes", nargs="*", metavar="CHANGE", help='changes to make, for example "add 3 crosses"')
    verb.add_argument("-o", "--out", type=Path, required=True, metavar="FILE", help="a .svg, .png, .pdf or .gif file")
    verb.add_argument("--theme", default="warm paper", help="a theme's name or file (warm paper)")


def _run_draw(options: argparse.Namespace) -> int:
    from studio.pictures.draw import draw

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
    verb.add_argument("--paper", default="letter", choices=["letter", "a4"], help="the paper (letter)")


def _run_handout(options: argparse.Namespace) -> int:
    from studio.handout import make_handout
    from studio.script.files import load

    make_handout(load(options.lesson), options.out, options.paper)
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


if __name__ == "__main__":
    sys.exit(main())
