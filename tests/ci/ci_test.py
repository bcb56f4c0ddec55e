"""The scripts of .ci/, with stand-ins for what they call: which packages are installed, where a bare Debian may be
made, and that the exit status and the last lines of .ci/run are those of the checks.

Usage: ci_test.py SOURCE_DIR"""
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

SOURCE = pathlib.Path(sys.argv[1]).resolve()
LISTED = [line.split("#")[0].strip() for line in (SOURCE / ".ci" / "packages").read_text().splitlines()]
LISTED = [name for name in LISTED if name]
ONLY = {}  # what one script alone needs
for line in (SOURCE / ".ci" / "packages").read_text().splitlines():
    if "# for .ci/" in line:
        ONLY.setdefault(line.split("# for .ci/")[1].strip(), []).append(line.split("#")[0].strip())
FOR_ONE = [package for packages in ONLY.values() for package in packages]
GIT = '[ "$1" != rev-parse ] || echo 1234\n'


def script(path, text):
    path.write_text("#!/bin/sh\n" + text)
    path.chmod(0o755)


class Machine:
    """A copy of .ci/ whose checks are a stand-in, and a PATH whose first folder holds stand-ins."""

    def __init__(self, work, **tools):
        self.work = pathlib.Path(work)
        shutil.copytree(SOURCE / ".ci", self.work / "a clone" / ".ci")
        (self.work / "bin").mkdir()
        self.log = self.work / "log"
        self.log.write_text("")
        for name, text in tools.items():
            script(self.work / "bin" / name.replace("_", "-"), text.replace("LOG", str(self.log)))

    def run(self, name, *words):
        environment = {"PATH": f"{self.work / 'bin'}:{os.environ['PATH']}", "TMPDIR": str(self.work), "CI": "true"}
        return subprocess.run(
            [str(self.work / "a clone" / ".ci" / name), *words],
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            env=environment,
            cwd="/",
        )


def machine(**tools):
    with tempfile.TemporaryDirectory() as work:
        yield Machine(work, **tools)


def test_what_is_installed():
    assert ONLY["bare"] == ["mmdebstrap"] and set(ONLY) == {"bare", "fuzz", "long", "test"}, ONLY
    assert all((SOURCE / ".ci" / name).is_file() for name in ONLY) and len(set(LISTED)) == len(LISTED) > 30, LISTED
    there = "g++ cmake"  # what this machine has already
    tools = {
        "id": "echo 0\n",
        "dpkg_query": "for last; do :; done\n"
        f'case " {there} " in *" $last "*) echo "install ok installed";; *) exit 1;; esac\n',
        "apt_get": 'echo "$@" >>"LOG"\n',
    }
    for words, wanted in (
        ([], [p for p in LISTED if p not in FOR_ONE and p not in there.split()]),
        *(([name], packages) for name, packages in ONLY.items()),
    ):
        for m in machine(**tools):
            done = m.run("install", *words)
            assert done.returncode == 0, done.stderr
            update, install = m.log.read_text().splitlines()
            assert (
                update.startswith("update") and [w for w in install.split()[1:] if not w.startswith("-")] == wanted
            ), install
    tools["dpkg_query"] = 'echo "install ok installed"\n'
    for m in machine(**tools):
        assert m.run("install").returncode == 0 and m.log.read_text() == ""  # nothing is missing: apt is not asked


def test_where_no_bare_debian_may_be_made():
    for tools, why in (
        ({"id": "echo 1000\n"}, "needs root"),
        ({"id": "echo 0\n", "unshare": "echo 'Operation not permitted' >&2\nexit 1\n"}, "does not let us mount"),
        ({"id": "echo 0\n", "unshare": "exit 0\n", "git": "exit 128\n"}, "no clone with a commit"),
        (
            {
                "id": "echo 0\n",
                "unshare": "exit 0\n",
                "git": GIT,
                "mmdebstrap": "exit 1\n",
                "apt_config": "exit 0\n",
                "ccache": "exit 1\n",
                "apt_get": "exit 0\n",
            },
            "apt knows no archive of Debian 12",
        ),
        (
            {
                "id": "echo 0\n",
                "unshare": "exit 0\n",
                "git": GIT,
                "mmdebstrap": "exit 1\n",
                "apt_config": "exit 0\n",
                "ccache": "echo /nonexistent >/dev/null\n",
                "apt_get": "echo 'Debian|deb http://a.invalid/debian/ bookworm main'\n",
            },
            "mmdebstrap could not make",
        ),
    ):
        for m in machine(**tools):
            done = m.run("bare")
            assert (done.returncode, done.stdout) == (125, "") and "bare: " in done.stderr and why in done.stderr, (
                why,
                done,
            )
            assert not list(m.work.glob("coldtally-bare.*")), why  # nothing is left behind
            # .ci/run says so, and runs the checks here: with their status, and their last line
            script(m.work / "a clone" / ".ci" / "checks", 'echo "100% tests passed"\nexit 8\n')
            done = m.run("run")
            assert done.returncode == 8 and done.stdout.splitlines()[-1] == "100% tests passed", done
            assert why in done.stderr and "run: NOT in a bare Debian 12" in done.stderr, done


def test_in_a_bare_debian():
    """With stand-ins for what makes the root and enters it: of which archives it is made, what goes in and comes
    out."""
    tools = {
        "id": "echo 0\n",
        "dpkg": "echo amd64\n",
        "git": '[ "$1" != rev-parse ] || echo 1234\necho "git $*" >>"LOG"\n',
        "ccache": f"echo {tempfile.gettempdir()}\n",
        "apt_config": "echo 'Acquire::http::Proxy \"http://proxy.invalid:3128\";'\n"
        "echo 'APT::Architecture \"amd64\";'\n",
        "apt_get": "printf '%s\\n' 'Debian|deb http://a.invalid/debian/ bookworm main' "
        "'Debian|deb http://a.invalid/debian-security/ bookworm-security main' "
        "'Debian|deb http://a.invalid/debian/ trixie main' 'Debian|deb http://a.invalid/debian/ bookworm non-free' "
        "'Other|deb http://b.invalid/ bookworm main'\n",
        "mmdebstrap": 'echo "mmdebstrap $*" >>"LOG"\nsed "s/^/from /" >>"LOG"\nfor word; do case $word in '
        '--aptopt=*) sed "s/^/apt /" "${word#--aptopt=}" >>"LOG";; *coldtally-bare*/root) '
        'mkdir -p "$word/etc" "$word/root";; esac; done\n',
        # the first call asks whether it may; the last word of the others is the command
        "unshare": 'for last; do :; done\ncase "$*" in *"mount -t proc proc /proc"*) exit 0;; esac\n'
        'echo "unshare $*" >>"LOG"\necho "ran $last"\n'
        "case $last in fails) exit 7;; esac\n",
    }
    for m in machine(**tools):
        done = m.run("bare", "first thing", "fails", "never")
        log = m.log.read_text()
        assert (done.returncode, done.stdout) == (7, "ran first thing\nran fails\n"), done
        made = next(line for line in log.splitlines() if line.startswith("mmdebstrap"))
        assert (
            "--variant=minbase" in made and "--include=ca-certificates,git,ccache " in made and " bookworm " in made
        ), made
        assert [line for line in log.splitlines() if line.startswith("from ")] == [
            "from deb http://a.invalid/debian-security/ bookworm-security main",
            "from deb http://a.invalid/debian/ bookworm main",
        ], log
        assert [line for line in log.splitlines() if line.startswith("apt ")] == [
            'apt Acquire::http::Proxy "http://proxy.invalid:3128";'
        ], log
        entered = next(line for line in log.splitlines() if line.startswith("unshare"))
        assert "env -i HOME=/root LANG=C.UTF-8 PATH=" in entered and " CI=true " in entered, entered
        assert not list(m.work.glob("coldtally-bare.*"))
        done = m.run("run")
        assert (done.returncode, done.stdout, "NOT" in done.stderr) == (0, "ran .ci/checks\n", False), done


tests = [f for name, f in sorted(globals().items()) if name.startswith("test_")]
for test in tests:
    test()
print(f"{len(tests)} passed, 0 failed")
