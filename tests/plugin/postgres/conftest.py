"""A PostgreSQL server of the tests' own, with the extension, in a temporary folder; nothing of the system is touched.

A server finds its modules and extensions from the place of its own program. So its programs are copied into a tree of
the same shape, links to all that they need are laid beside them, and the extension is installed there with DESTDIR.
"""

import contextlib
import json
import os
import pathlib
import shutil
import subprocess
import tempfile

import psycopg
import pytest

SOURCE = pathlib.Path(os.environ["JOINTLEDGER_SOURCE"])
BUILD = os.environ["JOINTLEDGER_BUILD"]
CMAKE = os.environ["JOINTLEDGER_CMAKE"]
# A server does not run as root. Debian's package brings this user.
AS_OWNER = ["runuser", "-u", "postgres", "--"] if os.geteuid() == 0 else []

# Nothing is put there, but below the temporary folder.
PREFIX = pathlib.Path("/usr/local")

# Own inventions, for what the demo notes lack: characters of more than a byte, and a note without anything to read.
EXTRA = [
    {"id": "letters", "text": "HISTORY\nLeft knee pain – größer.\nEXAM\nLeft knee – no swelling, ROM 0–140°.\n"
                              "Right knee: lacks 10° of extension; strength 4+/5, patellar reflex 2+."},
    {"id": "long", "text": "EXAM\nLeft knee – no swelling, " + "no deformity of any of its parts, " * 20 + "no scars."},
    {"id": "very long", "text": "EXAM\n" + "Left knee – no swelling. Größe unverändert. " * 150},
    {"id": "nothing", "text": "Here for a form. No complaint, no examination."},
]


def notes():
    lines = (SOURCE / "fixtures/notes.ndjson").read_text(encoding="utf-8").splitlines()
    return [json.loads(line) for line in lines] + EXTRA


def run(*command, stdin=None, status=(0,), **environment):
    """The standard output of a command. Nothing of the caller's environment can point it to other data."""
    clean = {name: value for name, value in os.environ.items() if not name.startswith(("JOINTLEDGER_", "PG"))}
    done = subprocess.run([str(word) for word in command], input=stdin, capture_output=True, cwd="/",
                          env={**clean, **environment}, check=False)
    assert done.returncode in status, done.stdout.decode() + done.stderr.decode()
    return done.stdout


def asked(option):
    return pathlib.Path(run(os.environ["JOINTLEDGER_PG_CONFIG"], option).decode().strip())


BIN = asked("--bindir")


class Server:
    """One that runs. Its superuser is "tests"; `connect` takes the name of a database."""

    def __init__(self, root):
        self.root = root
        self.program = self.under(PREFIX / "bin/jointledger")
        self.bin = self.under(BIN)
        self.log = root / "data/log"

    def under(self, folder):
        return self.root / "server" / folder.relative_to("/")

    def install(self):
        for what in [], ["--component", "postgres"]:
            run(CMAKE, "--install", BUILD, "--prefix", PREFIX, *what, DESTDIR=self.root / "server")
        self.bin.mkdir(parents=True)
        for name in ["initdb", "pg_ctl", "postgres"]:
            shutil.copy2(BIN / name, self.bin)
        shared, modules = asked("--sharedir"), asked("--pkglibdir")
        for folder in [modules, shared, shared / "extension"]:
            for path in folder.iterdir():
                place = self.under(path)
                if not place.exists():
                    place.symlink_to(path)

    def start(self, **settings):
        lines = {"listen_addresses": "", "unix_socket_directories": self.root, "fsync": "off", **settings}
        options = " ".join(f"-c {name}='{value}'" for name, value in lines.items())
        run(*AS_OWNER, self.bin / "pg_ctl", "-D", self.root / "data", "-l", self.log, "-w", "-o", options, "start",
            LD_LIBRARY_PATH=next(self.under(PREFIX).glob("lib*/**/libjointledger.so")).parent)

    def stop(self):
        run(*AS_OWNER, self.bin / "pg_ctl", "-D", self.root / "data", "-w", "-m", "immediate", "stop")

    def connect(self, database="postgres", **options):
        return psycopg.connect(host=str(self.root), user="tests", dbname=database, autocommit=True, **options)

    def ndjson(self, *arguments, of):
        """What the installed program answers to notes."""
        given = "".join(json.dumps(note) + "\n" for note in of).encode()
        out = run(self.program, *arguments, "--from", "ndjson", "--to", "ndjson", "-", stdin=given, status=(0, 1))
        return [json.loads(line) for line in out.splitlines()]


@contextlib.contextmanager
def running():
    # In a short path, which a socket needs, and where the server's user can reach it.
    with tempfile.TemporaryDirectory(prefix="jointledger-") as folder:
        server = Server(pathlib.Path(folder))
        server.root.chmod(0o755)
        server.install()
        if AS_OWNER:
            shutil.chown(folder, "postgres")
        run(*AS_OWNER, server.bin / "initdb", "-D", server.root / "data", "-U", "tests", "-A", "trust", "-E", "UTF8",
            "--locale", "C.UTF-8", "--no-sync")
        server.start()
        try:
            yield server
        finally:
            server.stop()


@pytest.fixture(scope="session", name="server")
def fixture_server():
    with running() as server:
        with server.connect() as connection:
            connection.execute("CREATE EXTENSION jointledger")
        yield server


@pytest.fixture(name="sql")
def fixture_sql(server):
    with server.connect() as connection:
        yield connection
