"""What every test shares: how hard hypothesis searches.

`everyday` is the default, `ci` gives the same examples on every run, `long` searches 50 times as far.
HYPOTHESIS_PROFILE chooses; CI=true means `ci`.
"""

import os

from hypothesis import HealthCheck, settings

# The machine's speed must not decide what passes, so no example has a deadline and slow data is no fault.
_PATIENT = {"deadline": None, "suppress_health_check": [HealthCheck.too_slow]}

settings.register_profile("everyday", **_PATIENT)
settings.register_profile("ci", derandomize=True, database=None, print_blob=True, **_PATIENT)
settings.register_profile("long", max_examples=5_000, **_PATIENT)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE") or ("ci" if os.environ.get("CI") else "everyday"))
