"""A job in a process of its own, so that its memory is free when it is done.

A speech model needs several hundred megabytes and keeps them as long as its process lives; a film needs as much.
"""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
from collections.abc import Callable
from typing import IO, Any, ParamSpec, TypeVar

from studio.progress import Progress

Arguments = ParamSpec("Arguments")
Result = TypeVar("Result")


def apart(
    job: Callable[Arguments, Result], progress: Progress, *arguments: Arguments.args, **named: Arguments.kwargs
) -> Result:
    """What `job(*arguments, **named)` gives in another process; it is called with `progress` as well.

    `job` is a function of a module, and what goes in and comes out can be pickled. What it raises is raised here.
    Raises ChildProcessError where the process ends without an answer (killed, or no memory left).
    """
    places = [place for place in sys.path if place]
    process = subprocess.Popen(
        [sys.executable, "-m", "studio.apart"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(places)},
    )
    assert process.stdin is not None and process.stdout is not None
    try:
        try:
            pickle.dump((job, arguments, named), process.stdin)
            process.stdin.close()
        except BrokenPipeError:
            pass  # it has ended already, and says why below
        while True:
            try:
                what, value = pickle.load(process.stdout)
            except (EOFError, pickle.UnpicklingError) as error:
                raise ChildProcessError(
                    f"{job.__module__}.{job.__qualname__} ended without an answer (exit {process.wait()})"
                ) from error
            if what == "progress":
                progress(*value)
            elif what == "result":
                result: Result = value
                return result
            else:
                raise value
    finally:
        process.kill()
        process.wait()
        process.stdout.close()


def _serve(coming: IO[bytes], going: IO[bytes]) -> None:
    """The other side: one job is read and done."""

    def say(what: str, value: Any) -> None:
        pickle.dump((what, value), going)
        going.flush()

    def told(error: BaseException) -> BaseException:
        """The error, or where it cannot be sent what it says."""
        try:
            pickle.loads(pickle.dumps(error))
        except Exception:
            return RuntimeError(f"{type(error).__name__}: {error}")
        return error

    try:
        job, arguments, named = pickle.load(coming)
        result = job(*arguments, **named, progress=lambda done, what: say("progress", (done, what)))
        say("result", result)
    except BrokenPipeError:
        pass  # nobody waits any longer
    except BaseException as error:
        say("error", told(error))


if __name__ == "__main__":
    # What the job itself prints goes to the terminal's error output; the answers have their own way.
    with os.fdopen(os.dup(1), "wb") as answers:
        os.dup2(2, 1)
        _serve(sys.stdin.buffer, answers)
