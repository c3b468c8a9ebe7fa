"""Folders and patterns as inputs, against what Python's os.walk() and glob find."""

import glob
import os

import pytest
from program import AUDIT, objects, run

NAMES = [
    "b.txt", "a.txt", "a/z.txt", "a/b/c.txt", "a-1.txt", "a.d/x.txt", "B.txt", "ab.txt", "note 1.txt", "[x].txt",
    "é.txt", "\u65e5.txt", ".hidden.txt", "a/.hidden/x.txt", "q?.txt", "star*.txt", "1.txt", "10.txt", "2.txt",
]  # fmt: skip


@pytest.fixture(name="folder")
def folder_of_notes(tmp_path):
    folder = tmp_path / "notes"
    for name in NAMES:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("EXAM: Right knee: no swelling.")
    (folder / "empty").mkdir()
    (folder / "loop").symlink_to(folder)
    os.mkfifo(folder / "pipe.txt")
    return folder


def ids(*inputs, **options):
    result = run(*AUDIT, *inputs, **options)
    return [audit["id"] for audit in objects(result.stdout)]


def in_order(paths):
    return sorted(paths, key=os.fsencode)


def walked(folder):
    """All files below, without what begins with a dot and what is no file."""
    found = []
    for place, folders, names in os.walk(folder):
        folders[:] = [name for name in folders if not name.startswith(".")]
        found += [os.path.join(place, name) for name in names if not name.startswith(".")]
    return in_order(path for path in found if os.path.isfile(path))


def test_a_folder_stands_for_the_files_in_it(folder):
    assert len(walked(folder)) == len(NAMES) - 2
    assert ids(folder) == walked(folder)
    assert ids(f"{folder}/") == walked(folder)


@pytest.mark.parametrize("pattern", ["*.txt", "a*", "?.txt", "[ab].txt", "[!ab].txt", "*/*.txt", "a/*", ".h*", "[[]*"])
def test_a_pattern_stands_for_what_matches(folder, pattern):
    expected = []
    for path in in_order(glob.glob(f"{folder}/{pattern}")):
        expected += walked(path) if os.path.isdir(path) else [path] if os.path.isfile(path) else []
    assert expected
    # The pipe matches as well, and nobody writes to it.
    (folder / "pipe.txt").unlink()
    assert ids(f"{folder}/{pattern}") == expected


def test_a_file_of_that_very_name_is_meant(folder):
    assert ids(folder / "star*.txt") == [f"{folder}/star*.txt"]
    assert ids(folder / "[x].txt") == [f"{folder}/[x].txt"]


def test_inputs_are_read_in_the_order_in_which_they_are_named(folder):
    named = [folder / "b.txt", folder / "a", folder / "a.txt", folder / "b.txt"]
    expected = [f"{folder}/b.txt", f"{folder}/a/b/c.txt", f"{folder}/a/z.txt", f"{folder}/a.txt", f"{folder}/b.txt"]
    assert ids(*named) == expected


def test_what_is_not_there_is_named(folder):
    result = run(*AUDIT, f"{folder}/*.xml", folder / "nowhere.txt", folder / "a.txt")
    assert result.returncode == 2
    assert b"*.xml: no file matches" in result.stderr
    assert b"nowhere.txt: cannot be opened: No such file or directory" in result.stderr
    assert b"3 read, 1 audited, 2 set aside" in result.stderr


def test_the_output_is_no_note(folder):
    (folder / "pipe.txt").unlink()
    (folder / "loop").unlink()
    notes = walked(folder)
    out, aside = folder / "a" / "out.ndjson", folder / "a" / "aside.ndjson"
    for inputs in (folder, f"{folder}/*", folder):
        result = run(*AUDIT, inputs, "-o", out, "--set-aside", aside)
        assert result.returncode in (0, 1), result.stderr
        assert sorted(audit["id"] for audit in objects(out.read_bytes())) == sorted(notes)
    # A link is written through.
    aside.unlink()
    link = folder.parent / "link.ndjson"
    link.symlink_to(out)
    out.write_text("")
    assert run(*AUDIT, folder, "-o", link).returncode in (0, 1)
    assert link.is_symlink()
    assert [audit["id"] for audit in objects(out.read_bytes())] == notes


def test_inputs_are_never_written_over(folder):
    note = folder / "a.txt"
    for option in ("-o", "--set-aside"):
        result = run(*AUDIT, note, option, note)
        assert result.returncode == 2
        assert b"is one of the notes" in result.stderr
    result = run(*AUDIT, note, "-o", folder / "x", "--set-aside", f"{folder}/./x")
    assert result.returncode == 2
    assert note.read_text() == "EXAM: Right knee: no swelling."


def test_outputs_that_cannot_be_written_are_named(folder):
    for out, reason in [
        (folder / "nowhere" / "out", b"No such file or directory"),
        (folder, b"Is a directory"),
        (folder / "a.txt" / "out", b"Not a directory"),
        ("/sys/out", b"Permission denied"),  # refused to everybody, root as well
    ]:
        for option in ("-o", "--set-aside"):
            result = run(*AUDIT, folder / "b.txt", option, out)
            assert result.returncode == 2
            assert b"cannot write" in result.stderr and reason in result.stderr, (out, result.stderr)
    result = run(*AUDIT, folder / "b.txt", "-o", "/dev/full")
    assert result.returncode == 3
    assert b"cannot write /dev/full: No space left on device" in result.stderr
