"""`python -m qa` is `levelspoon`."""

from qa.cli import main

main()
