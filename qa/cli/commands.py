"""Every command of `levelspoon`. Heavy imports stay inside the commands, so that `--help` is quick."""

from __future__ import annotations

import json as json_module
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from qa.errors import LevelspoonError

if TYPE_CHECKING:
    from qa.workbench import Workbench

app = typer.Typer(
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    help="Sort a recipe channel's comments, draft sourced replies for you to sign, plan the next kitchen test.",
)

At = Annotated[Path | None, typer.Option("--at", help="The workbench's folder; the current one if left out.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON for programs.")]
Out = Annotated[Path | None, typer.Option("--out", help="Write to this file instead of the screen.")]


def main() -> None:
    """Run the command line; our own errors are one line on standard error and exit code 2."""
    try:
        app()
    except LevelspoonError as fault:
        typer.echo(f"levelspoon: {fault}", err=True)
        raise SystemExit(2) from None
    except BrokenPipeError:
        raise SystemExit(0) from None
    except KeyboardInterrupt:
        typer.echo("levelspoon: stopped; everything reported as saved is saved", err=True)
        raise SystemExit(130) from None


@app.command()
def new(folder: Annotated[Path, typer.Argument(help="A new folder.")], json: Json = False) -> None:
    """Make a workbench with the starter knowledge."""
    from qa.workbench import Workbench

    bench = Workbench.create(folder)
    counts = bench.library.counts()
    _print(
        {"workbench": str(folder), "counts": counts},
        f"A workbench lies in {folder}: {counts['ingredients']} ingredients, {counts['facts']} facts, "
        f"{counts['answers']} standing answers.\nNext: levelspoon read FILE --at {folder}",
        json,
    )


@app.command()
def demo(
    out: Annotated[Path, typer.Option("--out", help="Where the demo's workbench is made.")] = Path("levelspoon-demo"),
    json: Json = False,
) -> None:
    """The invented channel, end to end: read, draft, topics, tip sheet, what to test next."""
    from qa.cli import printed
    from qa.workbench import Workbench

    result = Workbench.demo(out, _say)
    _print(result, printed.demo(result), json)


@app.command()
def read(
    files: Annotated[list[Path], typer.Argument(help="Comment exports.", metavar="FILE...")],
    mapping: Annotated[str, typer.Option("--map", help="Name the columns: text=body,author=user.name")] = "",
    dry_run: Annotated[
        bool, typer.Option("--dry-run", help="Show what was found in the first rows; store nothing.")
    ] = False,
    at: At = None,
    json: Json = False,
) -> None:
    """Read comment exports into the store: CSV, TSV, XLSX, JSON, JSON Lines, Atom, ActivityStreams, schema.org."""
    from qa.cli import printed
    from qa.workbench import Workbench, parse_mapping

    named = parse_mapping(mapping)
    if dry_run:
        looks = [Workbench.look(path, named) for path in files]
        _print([printed.look_shape(look) for look in looks], "\n\n".join(map(printed.look, looks)), json)
        return
    bench = _bench(at)
    for path in files:
        with _progress(f"reading {path.name}") as step:
            count = bench.read(path, named, step)
        _print(count, printed.read(count), json)


@app.command()
def aside(at: At = None, json: Json = False) -> None:
    """List the rows that were set aside when reading, with file, row and reason."""
    from qa.cli import printed

    rows = _bench(at).set_aside()
    _print(rows, printed.aside(rows), json)


@app.command()
def draft(
    again: Annotated[bool, typer.Option("--again", help="Draft anew whatever nobody has decided on.")] = False,
    at: At = None,
    json: Json = False,
) -> None:
    """Understand the comments that have no draft yet and draft replies to them."""
    from qa.cli import printed

    bench = _bench(at)
    with _progress("drafting") as step:
        counts = bench.draft(again=again, progress=step)
    _print(counts, printed.counts(counts), json)


@app.command()
def review(
    port: Annotated[int, typer.Option("--port", help="The port to begin at; a busy one is passed over.")] = 8417,
    no_browser: Annotated[bool, typer.Option("--no-browser", help="Print the address only.")] = False,
    who: Annotated[str, typer.Option("--who", help="The name your decisions are kept under.")] = "",
    at: At = None,
) -> None:
    """Read, change and sign the drafts in the browser, on this machine alone."""
    from qa.cli.review import review as open_notebook

    open_notebook(_bench(at), port, who, typer.echo, browser=not no_browser)


@app.command()
def export(
    what: Annotated[str, typer.Argument(help="replies")] = "replies",
    form: Annotated[
        str, typer.Option("--format", help="csv, jsonl, xlsx, md, html or faq (schema.org FAQPage)")
    ] = "csv",
    status: Annotated[
        str | None, typer.Option(help="Only this status: drafted, ask_back, needs_you, no_reply.")
    ] = None,
    signed: Annotated[bool, typer.Option("--signed", help="Only replies that a person signed.")] = False,
    out: Out = None,
    at: At = None,
    json: Json = False,
) -> None:
    """Give out the replies, every comment one row or line."""
    bench = _bench(at)
    if what != "replies":
        raise LevelspoonError(f"nothing called {what!r} can be exported", "export replies")
    text = bench.export("jsonl" if json else form, status=status, signed=signed or None)
    _write(text, out)


@app.command()
def topics(at: At = None, json: Json = False) -> None:
    """What is asked about, most asked first, with asks per week."""
    from qa.cli import printed

    rows = _bench(at).topics()
    _print(rows, printed.topics(rows), json)


@app.command()
def roundup(
    form: Annotated[str, typer.Option("--format", help="text or html")] = "text",
    out: Out = None,
    at: At = None,
    json: Json = False,
) -> None:
    """Compile the pinned tip sheet, conversions filled in and viewers credited."""
    if form not in {"text", "html"}:
        raise LevelspoonError(f"no form of tip sheet is called {form!r}", "there are: text, html")
    sheet = _bench(at).round_up()
    _write(_dump(sheet) if json else sheet["html"] if form == "html" else sheet["text"], out)


@app.command("next")
def next_(
    most: Annotated[int, typer.Option("--most", help="How many to plan.")] = 5, at: At = None, json: Json = False
) -> None:
    """Rank the open questions and plan the test that would answer each."""
    from qa.cli import printed

    plans = _bench(at).next(most)
    _print(plans, printed.plans(plans), json)


@app.command()
def owed(at: At = None, json: Json = False) -> None:
    """What is owed to viewers: answers now possible, corrections now needed, contradictions to put right."""
    from qa.cli import printed

    rows = _bench(at).owed()
    _print(rows, printed.owed(rows), json)


@app.command()
def ask(
    text: Annotated[str, typer.Argument(help="One comment, in quotes.")],
    explain: Annotated[bool, typer.Option("--explain", help="Show each step and why it fell silent.")] = False,
    episode: Annotated[str, typer.Option(help="The episode it stands under.")] = "",
    at: At = None,
    json: Json = False,
) -> None:
    """Draft a reply to one comment; nothing is stored."""
    from qa.cli import printed

    bench = _bench(at, starter=True)
    if explain:
        from qa.cli.explained import explained

        steps = bench.explain(text, episode)
        _print(steps, explained(steps), json)
        return
    reply = bench.ask(text, episode)
    _print(reply, printed.reply(reply), json)


# An amount may begin with a minus; it is refused with a reason, not taken for an option.
_AMOUNTS = {"ignore_unknown_options": True}


@app.command(context_settings=_AMOUNTS)
def weigh(
    words: Annotated[str, typer.Argument(help='For example "2 tbsp potato starch".')], at: At = None, json: Json = False
) -> None:
    """Spoons and cups to grams, and back: "2 tbsp potato starch", "100 g honey in tbsp"."""
    from qa.cli import printed

    found = _bench(at, starter=True).weigh(words)
    _print(found, printed.weigh(found), json)


@app.command(context_settings=_AMOUNTS)
def swap(
    words: Annotated[str, typer.Argument(help='What the recipe says, for example "1 tbsp ground flax".')],
    use: Annotated[str, typer.Option("--for", help="What to use instead.")],
    at: At = None,
    json: Json = False,
) -> None:
    """How much of another ingredient stands in, and what will change."""
    from qa.cli import printed

    found = _bench(at, starter=True).swap(words, use)
    _print(found, printed.swap(found), json)


@app.command()
def facts(
    words: Annotated[str, typer.Argument(help="An ingredient or one form of it, by name or id.", metavar="INGREDIENT")],
    plot: Annotated[Path | None, typer.Option("--plot", help="Also draw it to this file: .svg or .png.")] = None,
    at: At = None,
    json: Json = False,
) -> None:
    """Everything known of an ingredient, by tier, and whether its sources agree."""
    from qa.cli import told

    bench = _bench(at, starter=True)
    found = bench.facts_of(words)
    _print(found, told.facts(found), json)
    if plot:
        _write(bench.plot_of(words, plot.suffix.removeprefix(".").lower()), plot)


@app.command()
def learn(
    least: Annotated[int, typer.Option("--least", help="How many comments must ask for it.")] = 2,
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Print the files; write nothing.")] = False,
    at: At = None,
    json: Json = False,
) -> None:
    """What comments ask and the knowledge lacks, as files to fill in, in knowledge/proposed/."""
    from qa.cli import growing

    found = _bench(at).learn(least, dry_run=dry_run)
    _print(found, growing.learn(found), json)


@app.command("import-table")
def import_table(
    file: Annotated[Path, typer.Argument(help="A composition table, CSV, figures per 100 g.")],
    source: Annotated[str, typer.Option("--source", help="Its id in knowledge/sources.yaml.")],
    columns: Annotated[str, typer.Option("--columns", help="Name the columns: item=Food,protein=Protein (g)")] = "",
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Print the facts; write nothing.")] = False,
    at: At = None,
    json: Json = False,
) -> None:
    """Turn the rows of an open composition table into facts; exit 1 if rows or facts have problems."""
    from qa.cli import growing
    from qa.workbench import parse_mapping

    found = _bench(at).import_table(file, source, parse_mapping(columns), dry_run=dry_run)
    _print(found, growing.imported(found, dry_run=dry_run), json)
    raise typer.Exit(1 if found["problems"] else 0)


@app.command()
def check(
    counts: Annotated[bool, typer.Option("--counts", help="Also count what there is, by tier and property.")] = False,
    watch: Annotated[bool, typer.Option("--watch", help="Check again whenever a file is saved, until Ctrl-C.")] = False,
    at: At = None,
    json: Json = False,
) -> None:
    """Check every fact, answer, trial and setting; list all problems; exit 1 if there are any."""
    from qa import contract
    from qa.cli import printed
    from qa.cli.watch import watched

    def once() -> int:
        bench = _bench(at, starter=True)
        result: dict[str, Any] = {"problems": [contract.problem_shape(problem) for problem in bench.problems]}
        if counts:
            result["counts"] = bench.library.counts()
        _print(result, printed.check(bench.problems, result.get("counts")), json)
        return len(bench.problems)

    found = watched(once, lambda: _bench(at, starter=True).stamp(), _say) if watch else once()
    raise typer.Exit(1 if found else 0)


@app.command()
def score(
    file: Annotated[Path, typer.Argument(help="Labelled comments, JSON Lines.")],
    form: Annotated[str, typer.Option("--format", help="text or html")] = "text",
    out: Out = None,
    at: At = None,
    json: Json = False,
) -> None:
    """Measure the whole on labelled comments, beside plain search: kinds, asks, mentions, what is held back."""
    from qa.cli import printed

    if form not in {"text", "html"}:
        raise LevelspoonError(f"no form of report is called {form!r}", "there are: text, html")
    bench = _bench(at, starter=True)
    result = bench.score(file)
    _write(_dump(result) if json else bench.score_page(result) if form == "html" else printed.score(result), out)


@app.command()
def forget(
    author: Annotated[str, typer.Argument(help="The viewer's name as the exports give it.")],
    at: At = None,
    json: Json = False,
) -> None:
    """Remove a viewer from everything; reading the same file again does not bring them back."""
    count = _bench(at).forget(author)
    _print(
        {"author": author, "removed": count},
        f"{count} comment{'s' * (count != 1)} by {author} removed from everything.",
        json,
    )


@app.command()
def schema(
    name: Annotated[
        str, typer.Argument(help="An output (ask, read, weigh …) or a file (ingredient, answer, trial …).")
    ],
) -> None:
    """Print the JSON Schema of an output, or of a knowledge file, by which an editor completes what you type."""
    from qa import contract
    from qa.knowledge import schema as files
    from qa.text import nearest

    known = (*contract.SHAPES, *files.SCHEMAS)
    if name not in known:
        hint = nearest(name, known)
        remedy = f"did you mean {hint!r}?" if hint else f"there are: {', '.join(known)}"
        raise LevelspoonError(f"no schema is called {name!r}", remedy)
    typer.echo(_dump(files.schema(name) if name in files.SCHEMAS else contract.schema(name)))


def _bench(at: Path | None, *, starter: bool = False) -> Workbench:
    """The workbench asked for; the starter knowledge where that is enough and the current folder is none."""
    from qa.settings import SETTINGS_FILE
    from qa.workbench import Workbench

    starts_here = at is None and starter and not Path(SETTINGS_FILE).exists()
    bench = Workbench.starter() if starts_here else Workbench.open(at or Path())
    bench.say = _say
    return bench


def _dump(value: Any) -> str:
    return json_module.dumps(value, ensure_ascii=False, indent=2)


def _print(value: Any, words: str, as_json: bool) -> None:
    typer.echo(_dump(value) if as_json else words)


def _say(words: str) -> None:
    typer.echo(words, err=True)


def _write(text: str | bytes, out: Path | None) -> None:
    if out is None:
        if isinstance(text, bytes):
            if sys.stdout.isatty():
                raise LevelspoonError("this format is not text", "add --out FILE")
            sys.stdout.buffer.write(text)
        else:
            typer.echo(text, nl=not text.endswith("\n"))
        return
    try:
        out.write_bytes(text if isinstance(text, bytes) else text.encode())
    except OSError as fault:
        raise LevelspoonError(f"cannot write {out}: {fault.strerror}", "choose another file") from fault
    _say(f"written: {out}")


def _progress(label: str) -> Any:
    from qa.cli.printed import Progress

    return Progress(label)
