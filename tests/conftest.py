"""What every test shares: how hard hypothesis searches.

`everyday` is the default, `ci` gives the same examples on every run, `long` searches 50 times as far.
HYPOTHESIS_PROFILE chooses; CI=true means `ci`.
"""

import os
from pathlib import Path

from hypothesis import HealthCheck, settings

# The machine's speed must not decide what passes, so no example has a deadline and slow data is no fault.
_PATIENT = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])

settings.register_profile("everyday", _PATIENT)
settings.register_profile("ci", _PATIENT, derandomize=True, database=None, print_blob=True)
settings.register_profile("long", _PATIENT, max_examples=5_000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE") or ("ci" if os.environ.get("CI") else "everyday"))


def pytest_ignore_collect(collection_path: Path) -> bool | None:
    """Keep pytest from importing what only helps tests: the doctests are those of the project itself."""
    is_helper = collection_path.suffix == ".py" and not collection_path.name.startswith(("test_", "conftest"))
    return True if is_helper else None
