import pytest

from knowledge.answer import answer
from knowledge.expert_answers import About, Understood, understand
from tests.corpus_experts.small_pack import knowledge


@pytest.fixture(scope="session")
def known():
    return knowledge()


@pytest.fixture
def understood(known):
    """Understand an answer of an expert who knows Brindlecote and Hasselrieth machines, to a question."""

    def call(text: str, question: str = "") -> Understood:
        return understand(text, known, About.of(answer(question, known)) if question else None)

    return call
