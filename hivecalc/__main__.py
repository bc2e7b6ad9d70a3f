"""The commands, as `hivecalc` and as `python -m hivecalc`: Ctrl-C is heard while they load, too."""

import sys


def main() -> None:
    """Run the command that the shell gave, and leave with its exit status."""
    try:
        from hivecalc.cli import main as run  # noqa: PLC0415 - loads slowly
    except KeyboardInterrupt:
        sys.exit(130)  # as after Ctrl-C later on
    run()


if __name__ == "__main__":
    main()
