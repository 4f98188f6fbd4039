"""The one check command: format, lint, types, floors, knowledge, doctests and tests. Run it as `python tests/check.py`.

Every part runs even if an earlier one fails; the exit code is the number of parts that failed.
"""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
PARTS = (
    ("format", [sys.executable, "-m", "ruff", "format", "--check", "--quiet", "."]),
    ("lint", [sys.executable, "-m", "ruff", "check", "--quiet", "."]),
    ("types", [sys.executable, "-m", "mypy"]),
    ("floors", [sys.executable, "-c", "from importlinter.cli import lint_imports_command as run; run()"]),
    ("knowledge", [sys.executable, "-m", "qa", "check"]),
    ("tests", [sys.executable, "-m", "pytest", "-q", "-n", "auto", *sys.argv[1:]]),
)


def main() -> int:
    """Run every part and print which failed; pytest's own closing line comes last but for that."""
    failed = []
    for name, command in PARTS:
        sys.stdout.write(f"— {name}\n")
        sys.stdout.flush()
        if subprocess.run(command, cwd=ROOT, check=False).returncode:
            failed.append(name)
    sys.stdout.write(f"— failed: {', '.join(failed)}\n" if failed else "— all in order\n")
    return len(failed)


if __name__ == "__main__":
    sys.exit(main())
