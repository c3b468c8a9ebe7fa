"""What is wrong becomes an exception that never holds the text of a note; threads and signals go on meanwhile."""

import signal
import subprocess
import sys
import textwrap
import threading
import traceback

import jointledger
import pytest
from notes import UMLAUTS, program

SECRET = "Zebrawood"
BAD = {
    "surrogate": f"{SECRET} \ud800 knee",
    "nul": f"{SECRET} \0 knee",
    "not UTF-8": SECRET.encode() + b" \xff knee",
    "blank": " \n",
}


def told(error):
    """All that a traceback tells, and what its objects hold."""
    chain = [error, error.__cause__, error.__context__]
    return "".join(traceback.format_exception(error)) + "".join(repr(vars(e)) + repr(e.args) for e in chain if e)


@pytest.mark.parametrize("text", BAD.values(), ids=BAD)
def test_a_bad_note_is_an_error_that_does_not_hold_it(text):
    for act in (jointledger.read, jointledger.audit, lambda note, id: list(jointledger.read_all([(id, note)]))):
        with pytest.raises(jointledger.NoteError) as caught:
            act(text, id="7")
        assert caught.value.id == "7"
        assert caught.value.reason
        assert str(caught.value) == f"note '7': {caught.value.reason}"
        assert SECRET not in told(caught.value)


def test_the_place_of_what_is_wrong_is_named():
    with pytest.raises(jointledger.NoteError, match="byte 10"):
        jointledger.read(BAD["not UTF-8"])


def test_bad_notes_may_come_as_values_and_cost_no_other():
    notes = [UMLAUTS, *BAD.values(), UMLAUTS]
    results = list(jointledger.audit_all(notes, errors="return"))
    assert [isinstance(result, jointledger.NoteError) for result in results] == [False] + [True] * len(BAD) + [False]
    assert [result.id for result in results] == [str(n) for n in range(len(notes))]
    assert results[-1].gaps == results[0].gaps


def test_other_mistakes_are_told_apart():
    with pytest.raises(jointledger.ProfileError, match="no profile 'dancing' .there are: complaint, screening."):
        jointledger.audit_all([], "dancing")
    with pytest.raises(ValueError, match="from 0 to 1"):
        jointledger.audit(UMLAUTS, least_certainty=2)
    with pytest.raises(TypeError, match="a note is its text"):
        jointledger.read(7)
    with pytest.raises(TypeError, match="not one text"):
        jointledger.read_all(UMLAUTS)
    with pytest.raises(ValueError, match="threads"):
        jointledger.read_all([], threads=0)
    with pytest.raises(ValueError, match="'raise' or 'return'"):
        jointledger.read_all([], errors="ignore")


def test_faults_of_rules_are_told_with_file_and_line(tmp_path):
    (tmp_path / "ours.toml").write_text('name = "ours"\ncolour = "red"\n', encoding="utf-8")
    with pytest.raises(jointledger.DataError, match=r"ours\.toml:2"):
        jointledger.Engine(rules=[tmp_path])
    with pytest.raises(jointledger.DataError, match="no folder"):
        jointledger.Engine(lexicon=[tmp_path / "nowhere"])


def test_words_and_rules_of_a_site_are_used(tmp_path):
    (tmp_path / "ours.toml").write_text(
        textwrap.dedent(
            """\
            name = "ours"
            title = "One thing"
            purpose = "To try"
            caution = "Says little"

            [[expectation]]
            id = "knee-look"
            kind = "required"
            weight = 1
            asks = "Both knees, inspection"
            why = "To try"
            source = "common practice, no source"
            regions = ["knee"]
            components = ["inspection"]
            sides = "both"
            """
        ),
        encoding="utf-8",
    )
    engine = jointledger.Engine(rules=[tmp_path])
    assert "ours" in [profile.name for profile in engine.profiles]
    line = program("audit", "--profile", "ours", "--rules", tmp_path, notes=[("-", UMLAUTS)])[0]
    assert engine.audit(UMLAUTS, "ours").json == line


def test_the_interpreter_is_free_while_a_note_is_read():
    long = (UMLAUTS + "\n") * 20_000
    reading = threading.Thread(target=jointledger.read, args=(long,))
    reading.start()
    turns = 0
    while reading.is_alive():
        turns += 1
    assert turns > 1000  # with its lock held there would be one or two


def test_an_engine_serves_many_threads():
    expected = jointledger.audit(UMLAUTS).json
    found = []
    threads = [
        threading.Thread(target=lambda: found.extend(a.json for a in jointledger.audit_all([("-", UMLAUTS)] * 50)))
        for _ in range(8)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert found == [expected] * 400


def test_a_signal_ends_a_long_call():
    script = textwrap.dedent(
        """\
        import jointledger
        text = "Left knee: no effusion, flexion 0-120. " * 1_500_000
        jointledger.default_engine()
        print("go", flush=True)
        try:
            for _ in range(100):
                jointledger.read(text)
        except KeyboardInterrupt:
            print("stopped; and again:", len(jointledger.read("Left knee: no effusion.").entries))
        """
    )
    with subprocess.Popen([sys.executable, "-c", script], stdout=subprocess.PIPE, text=True) as child:
        assert child.stdout.readline() == "go\n"
        try:
            child.wait(timeout=1)
        except subprocess.TimeoutExpired:
            child.send_signal(signal.SIGINT)
        rest = child.communicate(timeout=120)[0]
    assert rest == "stopped; and again: 1\n"
