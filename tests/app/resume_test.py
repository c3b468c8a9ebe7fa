"""A batch that is interrupted goes on and ends with the same bytes; what it must not go on with, it refuses."""

import json
import os
import random
import resource
import signal
import subprocess
import time
import zlib

import pytest
from program import AUDIT, PROGRAM, notes, run

KILLS = 50
EVERY = ["--checkpoint", "0.01"]


class Batch:
    """An input with good and bad records, and what becomes of it when nobody interrupts the run."""

    def __init__(self, folder):
        self.lines = notes(seed=5, count=700)
        for at in range(13, len(self.lines), 41):
            self.lines[at] = self.lines[at][: len(self.lines[at]) // 2] + b"\xff"
        self.folder = folder
        self.input = folder / "notes.ndjson"
        self.input.write_bytes(b"\n".join(self.lines) + b"\n")
        result = run(*self.words("whole"))
        assert result.returncode == 2, result.stderr
        self.out, self.aside = self.files("whole")
        self.summary = result.stderr.splitlines()[-1]
        assert b"700 read" in self.summary
        # Else nothing would show that the finder of copied exams goes on where it was.
        assert self.out.count(b'"copied-exam"') > 50

    def words(self, name, *more):
        out, aside = self.folder / f"{name}.out", self.folder / f"{name}.aside"
        return [*AUDIT, self.input, "-o", out, "--set-aside", aside, *EVERY, *more]

    def files(self, name):
        return [(self.folder / f"{name}.{kind}").read_bytes() for kind in ("out", "aside")]

    def path(self, name, ending):
        return self.folder / f"{name}.out{ending}"

    def start(self, name, *more):
        words = [PROGRAM, *map(str, self.words(name, *more))]
        return subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)

    def interrupted(self, name, *more):
        """The checkpoint of a run that is killed once there is one."""
        checkpoint = self.path(name, ".checkpoint")
        with self.start(name, "--threads", "1", *more) as process:
            wait_for(lambda: checkpoint.exists() or process.poll() is not None)
            process.kill()
        assert checkpoint.exists(), "the run was over before it could be killed"
        return json.loads(checkpoint.read_text())

    def is_whole(self, name, result):
        """The run is over, and nothing tells that it was interrupted."""
        assert result.returncode == 2, result.stderr
        assert result.stderr.splitlines()[-1] == self.summary
        assert self.files(name) == [self.out, self.aside]
        left = sorted(path.name for path in self.folder.glob(f"{name}.*"))
        assert left == [f"{name}.aside", f"{name}.out"]


def wait_for(condition):
    while not condition():
        time.sleep(0.0005)


@pytest.fixture(name="batch", scope="module")
def batch_of_module(tmp_path_factory):
    return Batch(tmp_path_factory.mktemp("batch"))


def size_of(path):
    try:
        return os.stat(path).st_size
    except FileNotFoundError:
        return 0


def kill_at(process, part, whole, rng):
    """Kills the run once it has written a random share of its output, and a random moment later."""
    least = rng.choice([0, 1, rng.randint(1, whole), rng.randint(1, whole), whole])
    wait_for(lambda: size_of(part) >= least or process.poll() is not None)
    time.sleep(rng.uniform(0, 0.08 if least == 0 else 0.01))
    process.send_signal(signal.SIGKILL)
    process.wait()


def test_killed_at_random_points_it_ends_with_the_same_bytes(batch):
    seed = int(os.environ.get("JOINTLEDGER_SEED", random.SystemRandom().randrange(2**32)))
    print("seed", seed, "(JOINTLEDGER_SEED repeats it)")
    rng = random.Random(seed)
    gone_on = 0
    for kill in range(KILLS):
        name = f"killed{kill}"
        kill_at(batch.start(name, "--threads", str(rng.randint(1, 4))), batch.path(name, ".part"), len(batch.out), rng)
        while rng.random() < 0.3:
            again = batch.start(name, "--threads", str(rng.randint(1, 4)), "--resume")
            kill_at(again, batch.path(name, ".part"), len(batch.out), rng)
        assert not batch.path(name, "").exists() or batch.files(name) == [batch.out, batch.aside], f"kill {kill}"
        gone_on += batch.path(name, ".checkpoint").exists()
        batch.is_whole(name, run(*batch.words(name, "--resume", "--threads", rng.randint(1, 4))))
    # The other kills came before the first checkpoint, or too late.
    assert gone_on >= KILLS // 5, f"only {gone_on} runs had anything to go on with"


def test_the_checkpoint_says_what_was_read(batch):
    """CRC-32 as zlib has it, over the name of the input and its lines."""
    checkpoint = batch.interrupted("sums")
    read = b"".join(line + b"\n" for line in [str(batch.input).encode(), *batch.lines[: checkpoint["records"]]])
    assert checkpoint["input_sum"] == zlib.crc32(read)
    assert checkpoint["read"] == checkpoint["answered"] + checkpoint["set_aside"] == checkpoint["records"]
    assert size_of(batch.path("sums", ".part")) >= checkpoint["output_bytes"]
    assert batch.out[: checkpoint["output_bytes"]].count(b"\n") == checkpoint["answered"]


@pytest.mark.parametrize("moved", [0, 1, 2])
def test_interrupted_while_the_files_were_put_in_their_places(batch, moved):
    name = f"moved{moved}"
    checkpoint = batch.interrupted(name)
    checkpoint |= {"finished": 1, "read": 700, "answered": batch.out.count(b"\n")}
    checkpoint["set_aside"] = 700 - checkpoint["answered"]
    batch.path(name, ".checkpoint").write_text(json.dumps(checkpoint))
    for at, (kind, content) in enumerate([("aside", batch.aside), ("out", batch.out)]):
        part, place = batch.folder / f"{name}.{kind}.part", batch.folder / f"{name}.{kind}"
        part.write_bytes(content)
        if at < moved:
            part.rename(place)
    batch.is_whole(name, run(*batch.words(name, "--resume")))


def test_without_resume_it_begins_again(batch):
    batch.interrupted("afresh")
    result = run(*batch.words("afresh"))
    assert b"an interrupted run is given up" in result.stderr
    batch.is_whole("afresh", result)


def refused(result, *parts):
    assert result.returncode == 2, result.stderr
    for part in parts:
        assert part in result.stderr.decode(), result.stderr
    assert "begin again without" in result.stderr.decode()


def test_another_run_is_refused(batch, tmp_path):
    checkpoint = batch.interrupted("other")
    before = batch.path("other", ".part").read_bytes()
    words = batch.words("other", "--resume")
    refused(run(*words, "--certainty", "0.5"), "other options")
    refused(run(*words, "--from", "ndjson"), "other options")
    refused(run(*[word if word != "complaint" else "screening" for word in words]), "other options")
    refused(run(*words, tmp_path), "other inputs")
    (tmp_path / "cues.tsv").write_text("phrase\tcue\nbrisk\tgood\n")
    refused(run(*words, "--lexicon", tmp_path), "another lexicon")
    (tmp_path / "ours.toml").write_text("# nothing yet\n")
    refused(run(*words, "--rules", tmp_path), "other rules")
    assert json.loads(batch.path("other", ".checkpoint").read_text()) == checkpoint
    assert batch.path("other", ".part").read_bytes() == before
    batch.is_whole("other", run(*words))


def test_changed_inputs_are_refused(batch):
    checkpoint = batch.interrupted("changed")
    content = batch.input.read_bytes()
    try:
        batch.input.write_bytes(content.replace(b"HISTORY", b"history", 1))
        refused(run(*batch.words("changed", "--resume")), "not those that the interrupted run read")
        batch.input.write_bytes(b"\n".join(batch.lines[: checkpoint["records"] - 1]))
        refused(run(*batch.words("changed", "--resume")), "not those that the interrupted run read")
    finally:
        batch.input.write_bytes(content)
    batch.is_whole("changed", run(*batch.words("changed", "--resume")))


def test_what_cannot_be_gone_on_with_is_refused(batch):
    refused(run(*AUDIT, batch.input, "--resume"), "--output FILE")
    batch.interrupted("lost")
    batch.path("lost", ".part").write_bytes(b"")
    refused(run(*batch.words("lost", "--resume")), "is gone")
    batch.path("lost", ".checkpoint").write_text("{}")
    refused(run(*batch.words("lost", "--resume")), "lost.out.checkpoint is damaged")
    batch.is_whole("lost", run(*batch.words("lost")))


def test_nothing_to_go_on_with_begins_at_the_start(batch):
    result = run(*batch.words("none", "--resume"))
    assert b"beginning at the start" in result.stderr
    batch.is_whole("none", result)


def test_two_runs_cannot_write_the_same_file(batch):
    reader, writer = os.pipe()
    words = [*AUDIT, "-", "--from", "ndjson", "-o", str(batch.path("twice", ""))]
    with subprocess.Popen([PROGRAM, *words], stdin=reader, stderr=subprocess.DEVNULL) as first:
        os.close(reader)
        wait_for(batch.path("twice", ".part").exists)
        second = run(*words, input=b"")
        assert second.returncode == 2
        assert b"another run is writing it" in second.stderr
        os.close(writer)
        assert first.wait() == 0


@pytest.mark.parametrize("share", [0.0, 0.3, 0.9])
def test_a_full_disk_stops_it_and_it_can_go_on(batch, share):
    """A limit of the file size stands for the full disk: writing fails in the same way, at a byte of our choice."""
    name = f"full{share}"
    most = int(len(batch.out) * share)

    def limit():
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))

    result = run(*batch.words(name), preexec_fn=limit)
    assert result.returncode == 3, result.stderr
    assert f"cannot write {batch.folder}/{name}." in result.stderr.decode()
    assert b"File too large" in result.stderr
    assert b"the same command with --resume goes on" in result.stderr
    assert not batch.path(name, "").exists()
    batch.is_whole(name, run(*batch.words(name, "--resume")))


def test_the_old_output_stays_until_the_new_one_is_whole(batch):
    out = batch.path("nightly", "")
    out.write_bytes(b"last night's\n")
    out.chmod(0o640)
    batch.interrupted("nightly")
    assert out.read_bytes() == b"last night's\n"
    batch.is_whole("nightly", run(*batch.words("nightly", "--resume")))
    assert out.stat().st_mode & 0o777 == 0o640
    assert (batch.folder / "nightly.aside").stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize("to", ["json", "csv", "fhir", "fhir-bundle"])
def test_in_every_format_it_ends_with_the_same_bytes(batch, to):
    """What stands at the end of some tells of all notes, those before the interruption as well."""
    words = ["--date", "2031-03-04"]
    whole, name = f"whole-{to}", f"part-{to}"

    def run_to(name, *more):
        return run(*[to if word == "ndjson" else word for word in batch.words(name, *words, *more)])

    assert run_to(whole).returncode == 2
    process = subprocess.Popen(
        [PROGRAM, *[to if word == "ndjson" else str(word) for word in batch.words(name, "--threads", "1", *words)]],
        stderr=subprocess.DEVNULL,
    )
    wait_for(lambda: batch.path(name, ".checkpoint").exists() or process.poll() is not None)
    process.kill()
    process.wait()
    assert batch.path(name, ".checkpoint").exists()
    assert b"beginning at the start" not in run_to(name, "--resume").stderr
    assert batch.files(name) == batch.files(whole)
