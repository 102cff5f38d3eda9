"""`bedstamp run`: carry the group's channels until told to stop."""

from __future__ import annotations

import argparse
from pathlib import Path


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Describe the command."""
    parser = commands.add_parser(
        "run",
        help="answer in the group's channels until told to stop",
        description="Answers in every channel that has a section in the settings. Ends well on SIGTERM or Ctrl-C.",
        allow_abbrev=False,
    )
    parser.add_argument(
        "--config", metavar="FILE", type=Path, required=True, help="the settings; see deploy/settings.sample.toml"
    )
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Run. Returns 0 when it was told to stop; raises SettingsError, StoreError, PackFaults, AlreadyRunning."""
    from bot import running
    from bot.settings import read
    from bot.wiring import channels, expert_channels

    return running.run(read(arguments.config), channels, expert_channels)
