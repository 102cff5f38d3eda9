"""tests/run.sh and .ci/run take their words, and refuse others before anything is set up."""

import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
RUN, CI_RUN = ROOT / "tests" / "run.sh", ROOT / ".ci" / "run"


def run(script, *words):
    return subprocess.run(["bash", script, *words], cwd="/", capture_output=True, text=True, timeout=60)


@pytest.mark.parametrize("words", [["--only"], ["--only", "everything"]])
def test_a_part_that_does_not_exist_is_refused_with_the_usage(words):
    result = run(RUN, *words)
    assert result.returncode == 2
    assert "--only tests" in result.stderr


def test_help_is_help_and_no_fault():
    result = run(RUN, "--help")
    assert (result.returncode, result.stderr) == (0, "")
    assert "bash tests/run.sh" in result.stdout


def test_ci_runs_the_everyday_run_from_any_folder():
    assert run(CI_RUN, "--help").stdout == run(RUN, "--help").stdout
