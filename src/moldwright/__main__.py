"""`python -m moldwright` is the command line."""

from moldwright.desk.main import main

main()
