"""A second pack, invented for these answers, so that nothing is tuned to the names of the demo."""

from __future__ import annotations

from knowledge.base import Knowledge
from knowledge.packs.tables import Pack, Table

_TABLES = {
    "makers": """
        maker       | name        | aliases
        brindlecote | Brindlecote | Brindlecote Brothers; Brindlecote Bros; Brindlecot
        hasselrieth | Hasselrieth | Hasselrieth & Co; Hasselriet
        """,
    "works": """
        works    | maker       | name          | place
        underhay | brindlecote | Underhay Mill | Underhay, England (invented town)
        fellbeck | brindlecote | Fellbeck Works| Fellbeck, England (invented town)
        niederau | hasselrieth | Werk Niederau | Niederau, Germany (invented town)
        """,
    "models": """
        model       | maker       | name     | aliases
        br-4        | brindlecote | Model 4  | Mod. 4
        br-4b       | brindlecote | Model 4B |
        br-12       | brindlecote | Model 12 | Big Twelve
        br-dovelet  | brindlecote | Dovelet  | Brindlecote Dovelet
        ha-lottke   | hasselrieth | Lottke   | Hasselrieth Lottke
        ha-lottke-s | hasselrieth | Lottke S | Lottke Super
        ha-class-7  | hasselrieth | Class 7  | Klasse 7
        """,
    "registers": """
        register | maker       | kind        | title
        br-list  | brindlecote | allocations | Brindlecote: page by page
        ha-list  | hasselrieth | allocations | Hasselrieth: yearly list
        """,
    "allocations": """
        register | prefix | first  | last   | date | model      | works
        br-list  | A      | 100001 | 120000 | 1904 | br-12      | underhay
        br-list  | A      | 120001 | 150000 | 1909 | br-4       | underhay
        br-list  | B      | 100001 | 130000 | 1911 | br-4b      | fellbeck
        br-list  |        | 1001   | 9000   | 1889 | br-dovelet | underhay
        ha-list  | H      | 10001  | 40000  | 1925 | ha-lottke  | niederau
        ha-list  | H      | 40001  | 60000  | 1926 | ha-lottke  | niederau
        """,
}


def knowledge() -> Knowledge:
    """Return what the small pack knows."""
    return Knowledge.of([Pack.of("small", *(_table(name, text) for name, text in _TABLES.items()))])


def _table(name: str, text: str) -> Table:
    head, *rows = ([cell.strip() for cell in line.split("|")] for line in text.strip().splitlines())
    return Table.of(name, {column: [row[place] for row in rows] for place, column in enumerate(head)})
