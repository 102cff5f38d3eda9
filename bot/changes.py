"""A change of a register as experts see it: a plain value, without a file and a channel.

The desk makes it (bot/expert_desk/change_cards.py); its words are in bot/replies/changes.py.
"""

from __future__ import annotations

from dataclasses import dataclass

from knowledge.register_changes.nouns import PROPOSED, RegisterChange


@dataclass(frozen=True, slots=True)
class ChangeCard:
    """A change as it stands, to be put before experts, or to show them what became of it.

    `difference` says in lines what it changes and what the checks warn of, as whoever proposed it saw it. `channel` is
    the one it was proposed in: 'telegram', 'mail', 'terminal', or '' for somebody who was forgotten. `decided_why` is
    the reason of whoever turned it down, '' for none.
    """

    change: RegisterChange
    difference: str
    channel: str
    decided_why: str = ""

    @property
    def number(self) -> int:
        """The number by which experts know it."""
        return self.change.number

    @property
    def waits(self) -> bool:
        """Whether nobody has agreed to it or turned it down yet."""
        return self.change.state == PROPOSED
