"""The command for kitchen tests: what they say, what goes with an outcome, and the plan of the next one."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from qa.cli.commands import At, Json, Out, _bench, _print, _say, _write, app
from qa.errors import LevelspoonError


@app.command()
def trial(
    key: Annotated[str, typer.Argument(help="The trial to report on; all are listed if left out.", metavar="ID")] = "",
    plan: Annotated[str, typer.Option("--plan", help="Plan the test of an open question, by topic or name.")] = "",
    vary: Annotated[str, typer.Option("--vary", help="With --plan: suspects to screen together, A,B,C.")] = "",
    suspects: Annotated[str, typer.Option("--suspects", help="What goes with an outcome, like green or sunk.")] = "",
    episode: Annotated[str, typer.Option("--episode", help="With --suspects: this upload alone.")] = "",
    form: Annotated[str, typer.Option("--format", help="With --plan: text or html.")] = "text",
    dry_run: Annotated[bool, typer.Option("--dry-run", help="With --plan: write no file of readings.")] = False,
    plot: Annotated[Path | None, typer.Option("--plot", help="Also draw the readings: .svg or .png.")] = None,
    out: Out = None,
    at: At = None,
    json: Json = False,
) -> None:
    """What kitchen tests say and whether they were fair; what goes with an outcome; the next test on paper."""
    from qa.cli import told_trials

    if sum(map(bool, (key, plan, suspects))) > 1 or (vary and not plan) or (episode and not suspects):
        raise LevelspoonError(
            "these do not go together", "give an ID, or --plan with --vary, or --suspects with --episode"
        )
    if form not in {"text", "html"}:
        raise LevelspoonError(f"no form of sheet is called {form!r}", "there are: text, html")
    if plot and not key:
        raise LevelspoonError("no trial is named to draw", "give its ID before --plot")
    bench = _bench(at, starter=not (plan or suspects))
    if plan:
        planned = bench.plan_trial(plan, vary.split(",") if vary else (), dry_run=dry_run)
        if json:
            _print(planned, "", json)
            return
        _write(planned["html"] if form == "html" else planned["text"], out)
        _say(told_trials.planned(planned))
    elif suspects:
        found = bench.suspects(suspects, episode)
        _print(found, told_trials.suspects(found), json)
    elif key:
        report = bench.trial(key)
        _print(report, told_trials.report(report), json)
        if plot:
            _write(bench.trial_plot(key, plot.suffix.removeprefix(".").lower()), plot)
    else:
        rows = bench.trials()
        _print(rows, told_trials.listed_(rows), json)
