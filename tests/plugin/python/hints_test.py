"""The hints hold for those who check their types, and the README's example runs."""

import contextlib
import io
import pathlib
import re
import subprocess
import sys

import jointledger
from notes import SOURCE

PACKAGE = pathlib.Path(jointledger.__file__).parent


def checked(*paths):
    done = subprocess.run(
        [sys.executable, "-m", "mypy", "--strict", "--cache-dir", "/dev/null", *map(str, paths)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr


def example():
    section = (SOURCE / "README.md").read_text(encoding="utf-8").split("\n## From Python\n")[1].split("\n## ")[0]
    return re.search(r"```python\n(.*?)```", section, re.DOTALL).group(1)


def test_the_module_is_typed(tmp_path):
    assert (PACKAGE / "py.typed").exists()
    use = tmp_path / "use.py"
    use.write_text(
        "import jointledger\n"
        "score: float = jointledger.audit('x', profile='complaint').score\n"
        "ledgers: list[jointledger.Ledger] = list(jointledger.read_all(['x']))\n"
        "mixed: list[jointledger.Ledger | jointledger.NoteError] = list(jointledger.read_all(['x'], errors='return'))\n"
        "words: list[str] = [s.words('x') for e in ledgers[0].entries for s in e.evidence]\n",
        encoding="utf-8",
    )
    checked(use)
    use.write_text("import jointledger\nscore: str = jointledger.audit('x').score\n", encoding="utf-8")
    wrong = subprocess.run([sys.executable, "-m", "mypy", "--cache-dir", "/dev/null", str(use)], check=False)
    assert wrong.returncode == 1


def test_the_module_has_what_it_names_and_says_what_it_is():
    for name in jointledger.__all__:
        thing = getattr(jointledger, name)
        assert name == "__version__" or thing.__doc__


def test_words_and_rules_came_with_the_module():
    assert (PACKAGE / "share/jointledger/lexicon/regions.tsv").exists()
    assert (PACKAGE / "share/jointledger/rules/screening.toml").exists()


def test_the_example_of_the_readme_runs(tmp_path):
    out = io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.chdir(SOURCE):
        exec(compile(example(), "README.md", "exec"), {})  # noqa: S102 (it is the README that is tried)
    assert "Left knee, inspection" in out.getvalue()
    assert "makes no diagnosis" in out.getvalue()
