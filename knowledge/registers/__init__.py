"""Registers: one module for each kind, and what they have in common.

`allocations` and `year_starts` yield blocks (`blocks`), `date_codes` yields codes (`codes`). Whatever their kind,
compiled registers answer `covering`: every dating of one number.
"""

from knowledge.registers.blocks import LONGEST, Block, BlockRow, Blocks, SeriesKey
from knowledge.registers.register import PackSource, Register

__all__ = ["LONGEST", "Block", "BlockRow", "Blocks", "PackSource", "Register", "SeriesKey"]
