"""The commands, as `python -m hivecalc.cli`."""

from hivecalc.cli import main

if __name__ == "__main__":
    main()
