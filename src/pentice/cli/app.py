"""The commands. Each body is four lines: read, call the engine, show, exit code."""

from __future__ import annotations

import math
import sys
import traceback
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Annotated

from cyclopts import App, CycloptsError, Parameter

from pentice.cli.progress import LongSearch, cut_short
from pentice.errors import InputError, PenticeError, Problem
from pentice.told import told

Catalogues = Annotated[
    tuple[Path, ...],
    Parameter(
        name="--catalogue",
        consume_multiple=True,
        negative=(),
        help="Catalogue files of your own; later ones win.",
    ),
]
OutFolder = Annotated[
    Path, Parameter(help="The folder; a good pack in it is only replaced by a whole new one.")
]
JobFile = Annotated[Path, Parameter(help="The job file.")]
JobFiles = Annotated[Path, Parameter(help="The job file, or several.")]
EntriesFile = Annotated[Path, Parameter(help="The file that the site page saved.")]
UseFile = Annotated[
    bool,
    Parameter(
        name="--use-file",
        negative=(),
        help="Take readings that were typed on a site page of another revision.",
    ),
]
SpoiledPieces = Annotated[
    str,
    Parameter(
        help='Pieces to make again, as on their tickets: S3, or "sheet 3". The sheet they come from counts as cut to '
        "the end unless --cut says how far, a length up to and with them. Where several jobs are cut together their "
        'files stand first, each ending in .toml, and each piece has its job\'s reference: "PB-0311 S3".'
    ),
]
CutAlready = Annotated[
    tuple[str, ...],
    Parameter(
        name="--cut",
        consume_multiple=True,
        negative=(),
        help="What else is cut already: 2 is stock sheet 2 to the end, 2:4 stock sheet 2 up to and with cut 4 of its "
        "ticket; a piece of a length means that it and all on its left are cut.",
    ),
]
Within = Annotated[
    float | None,
    Parameter(
        name="--within",
        help="Seconds from now, 0 or more, to look for a cheaper cutting plan in; then the best so far. A pack, which "
        "must come out the same again, takes no such limit: see stock.search_effort.",
    ),
]
Json = Annotated[bool, Parameter(name="--json", negative=(), help="The same facts as JSON.")]

DONE, NOT_PROVED, CANNOT_USE = 0, 1, 2


def _version() -> str:
    from pentice.pipeline import engine_version

    return engine_version()


app = App(
    name="pentice",
    help="From a tape measure to the whole job pack for lean-to roofs in multiwall polycarbonate.",
    version=_version,
    help_format="plaintext",
    default_parameter=Parameter(show_default=False),  # "()" and "False" tell nobody anything
    result_action="return_value",
    suppress_keyboard_interrupt=False,  # `run` says that nothing half written is left behind
)


def run(words: Sequence[str]) -> int:
    """Run one command line and give its exit code; expected errors become sentences on stderr."""
    try:
        with told(LongSearch(_say)):
            code = app(list(words), exit_on_error=False, print_error=False)
        return code if isinstance(code, int) else DONE
    except CycloptsError as fault:
        _say(f"{fault}\nTry: pentice --help")
        return CANNOT_USE
    except PenticeError as fault:
        _say_all(fault)
        return fault.exit_code
    except BrokenPipeError:  # the reader of our output went away, for example `| head`
        sys.stderr.close()
        return DONE
    except KeyboardInterrupt:
        _say("stopped; nothing half written is left behind.")
        return 130
    except Exception:
        traceback.print_exc()
        _say("this is a fault of Pentice, not of your job. Report it with the lines above and the job file.")
        return 70


def _say(text: str) -> None:
    for line in text.splitlines():
        print(f"pentice: {line}", file=sys.stderr)


def _say_all(fault: PenticeError) -> None:
    """Every problem of a fault, one line each."""
    for problem in fault.problems if isinstance(fault, InputError) else (fault,):
        _say(str(problem))


def _seconds(within: float | None) -> float | None:
    """A limit in seconds; what is none is refused in a sentence."""
    if within is not None and not 0.0 <= within < math.inf:
        raise InputError(
            [Problem("--within", f"{within:g} is no time to search for; give seconds, 0 or more.")]
        )
    return within


def _code(complete: bool) -> int:
    return DONE if complete else NOT_PROVED


def _show(data: Callable[[], object], text: Callable[[], str], as_json: bool) -> None:
    if as_json:
        import json

        print(json.dumps(data(), ensure_ascii=False, indent=2, allow_nan=False))
    else:
        print(text())


@app.command
def new(file: Path, /, *, from_: Annotated[str | None, Parameter(name="--from")] = None) -> int:
    """Write a job file to fill in, each key explained.

    Parameters
    ----------
    file
        Where to write it; a file that is there already is left alone.
    from_
        Start from an example: boat-rack, cycle-shelter, log-store, plant-lobby, potting-bay, snow-carport or
        uneven-veranda.
    """
    from pentice.cli.files import write_new
    from pentice.job.template import new_job_text

    write_new(file, new_job_text(from_))
    print(f"{file} is written. Fill it in, then: pentice solve {file}")
    return DONE


@app.command
def solve(job: JobFile, /, *, within: Within = None, json: Json = False, catalogue: Catalogues = ()) -> int:
    """Show a page of text: sizes, verdicts, order, price."""
    from pentice.cli.loading import load, solved
    from pentice.cli.text import design_text
    from pentice.design_json import design_data

    with cut_short(_seconds(within), _say):
        design = solved(load(job, catalogue))
    _show(lambda: design_data(design), lambda: design_text(design), json)
    return _code(design.proved)


@app.command
def check(job: JobFile, /, *, json: Json = False, catalogue: Catalogues = ()) -> int:
    """Show every check with its working."""
    from pentice.cli.loading import load, solved
    from pentice.cli.text import checks_text
    from pentice.design_json import design_data

    design = solved(load(job, catalogue))
    _show(lambda: design_data(design)["checks"], lambda: checks_text(design), json)
    return _code(design.proved)


@app.command
def advise(job: JobFile, /, *, within: Within = None, json: Json = False, catalogue: Catalogues = ()) -> int:
    """Show moves that save stock, cures for what fails, and options side by side."""
    from pentice.advice.stage import advise as advise_on
    from pentice.advice.writing import advice_data, advice_text
    from pentice.cli.loading import load

    loaded = load(job, catalogue)
    with cut_short(_seconds(within), _say):
        advice = advise_on(loaded.job, loaded.catalogue, loaded.firm)
    _show(lambda: advice_data(advice), lambda: advice_text(advice), json)
    return _code(advice.design.proved)


@app.command
def pack(*jobs: JobFiles, out: OutFolder, catalogue: Catalogues = ()) -> int:
    """Write the main job: every document. Several jobs are cut and ordered together, the rest in a folder for each."""
    from pentice.cli.loading import for_each, load
    from pentice.cli.packing import pack_jobs

    loaded = for_each(jobs, lambda job: load(job, catalogue), str)
    designs = pack_jobs(loaded, out, say=lambda text: print(text, file=sys.stderr))
    return _code(all(design.proved for design in designs))


@app.command
def measure(
    job: JobFile, entries: EntriesFile, /, *, use_file: UseFile = False, catalogue: Catalogues = ()
) -> int:
    """Read what was typed on the site page into [measured], and say what the ordered sheets still serve."""
    from pentice.cli.measuring import frame_news, merge_entries, news_lines

    kept = merge_entries(job, entries, use_file=use_file)
    print(f"{job} now holds the readings under [measured]. The file before is kept as {kept}.")
    try:
        print("\n".join(news_lines(frame_news(job, catalogue))))
    except PenticeError as fault:
        _say("what the ordered sheets still serve cannot be said before this is put right:")
        _say_all(fault)
    return DONE


@app.command
def recut(
    job: JobFile,
    /,
    *spoiled: SpoiledPieces,
    cut: CutAlready = (),
    json: Json = False,
    catalogue: Catalogues = (),
) -> int:
    """Plan the rest of the cutting once pieces are spoiled: what comes out of what is left, and what must be bought."""
    from pentice.advice.recut import recut as plan_the_rest
    from pentice.advice.recut_writing import recut_data, recut_text
    from pentice.cli.loading import for_each, jobs_first, load, solved_as_cut

    jobs, pieces = jobs_first(job, spoiled)
    found = plan_the_rest(solved_as_cut(for_each(jobs, lambda one: load(one, catalogue), str)), pieces, cut)
    _show(lambda: recut_data(found), lambda: recut_text(found), json)
    return _code(found.work.proved)


@app.command
def schema(*, design: Annotated[bool, Parameter(negative=())] = False) -> int:
    """Print the JSON Schema of the job file.

    Parameters
    ----------
    design
        Of the design instead.
    """
    import json

    from pentice.design_json import design_schema
    from pentice.job.schema import job_schema

    print(json.dumps(design_schema() if design else job_schema(), ensure_ascii=False, indent=2))
    return DONE


@app.command
def products(*, json: Json = False, catalogue: Catalogues = ()) -> int:
    """List the products of the catalogue."""
    from pentice.catalogue.products import products_data, products_text
    from pentice.catalogue.reading import read_catalogue

    found = read_catalogue(catalogue)
    _show(lambda: products_data(found), lambda: products_text(found), json)
    return DONE
