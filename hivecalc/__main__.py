"""The commands, as `python -m hivecalc`."""

from hivecalc.cli import main

if __name__ == "__main__":
    main()
