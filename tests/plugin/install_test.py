"""What is installed works for those who find it: by pkg-config, as a CMake package, and after it was moved."""

import os
import pathlib
import re
import shutil
import subprocess

import pytest

SOURCE = pathlib.Path(os.environ["JOINTLEDGER_SOURCE"])
BUILD = os.environ["JOINTLEDGER_BUILD"]
CMAKE = os.environ["JOINTLEDGER_CMAKE"]
SANITIZE = os.environ["JOINTLEDGER_SANITIZE"]
CC, CXX = os.environ["JOINTLEDGER_CC"], os.environ["JOINTLEDGER_CXX"]

CONSUMER = SOURCE / "tests/plugin/consumer"
NOTE = SOURCE / "fixtures/notes/14-knee-one-side-only.txt"
# What a library is instrumented with, its program must be, too.
FLAGS = [f"-fsanitize={SANITIZE}"] if SANITIZE else []
WARNINGS = ["-Wall", "-Wextra", "-Wpedantic", "-Werror"]


def run(*command, status=0, **environment):
    """The standard output of a command. Nothing of the caller's environment can point it to other data."""
    clean = {name: value for name, value in os.environ.items() if not name.startswith("JOINTLEDGER_")}
    done = subprocess.run(
        [str(word) for word in command], capture_output=True, text=True, env={**clean, **environment}, check=False
    )
    assert done.returncode == status, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module", name="installed")
def fixture_installed(tmp_path_factory):
    """An installation in a prefix of its own, other than the one that was configured."""
    prefix = tmp_path_factory.mktemp("installed")
    run(CMAKE, "--install", BUILD, "--prefix", prefix)
    return prefix


def library_folder(prefix):
    return next(prefix.glob("lib*/**/libjointledger.so")).parent


def pkg_config(prefix, *words):
    path = str(library_folder(prefix) / "pkgconfig")
    return run("pkg-config", *words, "jointledger", PKG_CONFIG_PATH=path, PKG_CONFIG_LIBDIR=path).split()


def compiled_by_pkg_config(prefix, source, out):
    flags = pkg_config(prefix, "--cflags", "--libs")
    run(CC, "-std=c11", *WARNINGS, *FLAGS, source, "-o", out, *flags, f"-Wl,-rpath,{library_folder(prefix)}")
    return out


def expect_the_same_as_the_program(prefix, consumer):
    program = prefix / "bin/jointledger"
    ledger = run(program, "read", NOTE, "--to", "ndjson")
    audit = run(program, "audit", NOTE, "--profile", "complaint", "--to", "ndjson", status=1)
    said = run(consumer, NOTE, "complaint")
    assert said.startswith(ledger + audit)
    assert "___" in said
    run(consumer, NOTE, "nonsense", status=1)


def test_everything_is_where_it_belongs(installed):
    files = {str(path.relative_to(installed)) for path in installed.rglob("*") if not path.is_dir()}
    lib = library_folder(installed).relative_to(installed)
    for name in [
        "bin/jointledger",
        "include/jointledger.h",
        "share/doc/jointledger/LICENSE",
        f"{lib}/libjointledger.so",
        f"{lib}/libjointledger.so.0",
        f"{lib}/pkgconfig/jointledger.pc",
        f"{lib}/cmake/Jointledger/JointledgerConfig.cmake",
        f"{lib}/cmake/Jointledger/JointledgerConfigVersion.cmake",
        f"{lib}/cmake/Jointledger/JointledgerTargets.cmake",
    ]:
        assert name in files
    for folder in ["lexicon", "rules"]:
        shipped = {f"share/jointledger/{folder}/{path.name}" for path in (SOURCE / folder).iterdir()}
        assert shipped <= files
    # Nobody can link with the rooms behind the interface.
    assert not [name for name in files if name.endswith((".a", ".hpp"))]
    assert [name for name in files if name.endswith(".h")] == ["include/jointledger.h"]


def test_the_library_exports_what_the_header_declares_and_nothing_else(installed):
    header = (installed / "include/jointledger.h").read_text()
    code = re.sub(r"/\*.*?\*/", "", header, flags=re.DOTALL)
    declared = set(re.findall(r"JOINTLEDGER_API\b[^;]*?\b(jointledger_\w+)\(", code))
    assert "jointledger_read" in declared and len(declared) > 20
    listing = run("nm", "-D", "--defined-only", library_folder(installed) / "libjointledger.so")
    symbols = [line.split() for line in listing.splitlines()]
    # The version itself is listed as an absolute symbol.
    assert {words[2].split("@")[0] for words in symbols if words[1] != "A"} == declared
    assert all(words[2].endswith("@@JOINTLEDGER_0") for words in symbols if words[1] != "A")


def test_the_library_has_a_soname(installed):
    assert "[libjointledger.so.0]" in run("readelf", "-d", library_folder(installed) / "libjointledger.so")


@pytest.mark.parametrize(
    "compiler, language",
    [(CC, "c99"), (CC, "c11"), (CC, "c17"), (CXX, "c++11"), (CXX, "c++17"), (CXX, "c++20")],
)
def test_the_header_stands_alone(installed, tmp_path, compiler, language):
    source = tmp_path / ("source.cpp" if "++" in language else "source.c")
    source.write_text("#include <jointledger.h>\n#include <jointledger.h>\nint main(void) { return 0; }\n")
    run(compiler, f"-std={language}", *WARNINGS, "-Wconversion", "-fsyntax-only", f"-I{installed}/include", source)


def test_found_by_pkg_config(installed, tmp_path):
    consumer = compiled_by_pkg_config(installed, CONSUMER / "consumer.c", tmp_path / "consumer")
    expect_the_same_as_the_program(installed, consumer)
    assert pkg_config(installed, "--modversion") == [os.environ["JOINTLEDGER_PROJECT_VERSION"]]


def build_by_cmake(prefix, build):
    run(
        CMAKE, "-S", CONSUMER, "-B", build, f"-DCMAKE_PREFIX_PATH={prefix}", f"-DCMAKE_C_COMPILER={CC}",
        f"-DCMAKE_C_FLAGS={' '.join(FLAGS)}",
    )
    run(CMAKE, "--build", build)
    return build / "consumer"


def test_found_as_a_cmake_package(installed, tmp_path):
    expect_the_same_as_the_program(installed, build_by_cmake(installed, tmp_path / "build"))


def test_another_version_is_not_taken_for_it(installed, tmp_path):
    project = tmp_path / "project"
    shutil.copytree(CONSUMER, project)
    lists = project / "CMakeLists.txt"
    lists.write_text(lists.read_text().replace("Jointledger 0.1", "Jointledger 99"))
    run(CMAKE, "-S", project, "-B", tmp_path / "build", f"-DCMAKE_PREFIX_PATH={installed}", status=1)


def test_found_after_it_was_moved(installed, tmp_path):
    moved = tmp_path / "elsewhere/renamed"
    shutil.copytree(installed, moved, symlinks=True)
    # Rules that only the moved installation has: those of the source tree would be found as well.
    shutil.copy(moved / "share/jointledger/rules/complaint.toml", moved / "share/jointledger/rules/moved.toml")
    rules = moved / "share/jointledger/rules/moved.toml"
    rules.write_text(rules.read_text().replace('name = "complaint"', 'name = "moved"'))
    for consumer in [
        build_by_cmake(moved, tmp_path / "build"),
        compiled_by_pkg_config(moved, CONSUMER / "consumer.c", tmp_path / "consumer"),
    ]:
        assert '"profile":"moved"' in run(consumer, NOTE, "moved")
        expect_the_same_as_the_program(moved, consumer)


def test_the_environment_says_where_else_the_data_is(installed, tmp_path):
    consumer = compiled_by_pkg_config(installed, CONSUMER / "consumer.c", tmp_path / "consumer")
    data = tmp_path / "data"
    shutil.copytree(installed / "share/jointledger", data)
    (data / "rules/screening.toml").unlink()
    run(consumer, NOTE, "screening")
    run(consumer, NOTE, "screening", JOINTLEDGER_DATA=str(data), status=1)
    run(consumer, NOTE, "complaint", JOINTLEDGER_DATA=str(data))
    run(consumer, NOTE, "complaint", JOINTLEDGER_DATA=str(tmp_path / "nowhere"), status=1)


def test_the_example_of_the_readme_runs(installed, tmp_path):
    readme = (SOURCE / "README.md").read_text()
    (example,) = re.findall(r"```c\n(.*?)```", readme, flags=re.DOTALL)
    (tmp_path / "example.c").write_text(example)
    compiled = compiled_by_pkg_config(installed, tmp_path / "example.c", tmp_path / "example")
    said = run(compiled, NOTE)
    audit = run(installed / "bin/jointledger", "audit", NOTE, "--profile", "complaint", status=1)
    prompts = [line for line in said.splitlines() if "___" in line]
    assert prompts
    # The program wraps long lines.
    assert all(" ".join(prompt.split()) in " ".join(audit.split()) for prompt in prompts)
