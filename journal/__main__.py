"""`python -m journal` is `journal`."""

from journal.cli import main

main(prog_name="journal")
