"""The command line: read arguments, call one method of the workbench, print, set the exit code."""

from qa.cli import sums, trials
from qa.cli.commands import main

__all__ = ["main", "sums", "trials"]
