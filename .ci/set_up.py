"""Make `.venv` ready: `python3 .ci/set_up.py site` to use kitwright, `... test` to work on it.

Only the standard library is used here, since nothing else is there yet. What is there already is left
as it is. What cannot be done without the user's leave is said, with the command that does it.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
VENV = ROOT / ".venv"
PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
CONSTRAINTS = ROOT / "constraints.txt"
MARKS = {"site": VENV / ".ready-site", "test": VENV / ".ready-test"}

# Some of these bring others along, which ones differs from release to release; naming all four does no harm.
APT_LIBRARIES = ("libcairo2", "libpango-1.0-0", "libpangoft2-1.0-0", "libharfbuzz-subset0")

# Loading the two packages is the only test that holds on every system. Without the last library the second
# one loads with a warning and then writes whole fonts into each PDF, so that warning counts as missing.
PROBE = (
    "import warnings; warnings.filterwarnings('error', message='HarfBuzz'); "
    "import cairocffi, weasyprint"
)

LIBRARY_HELP = {
    "linux": f"""\
  Debian, Ubuntu:  sudo apt install {" ".join(APT_LIBRARIES)}
  other Linux:     install cairo, pango and harfbuzz with your package manager""",
    "darwin": """\
  macOS:    brew install cairo pango
            (if they are still not found: export DYLD_FALLBACK_LIBRARY_PATH="$(brew --prefix)/lib")""",
    "win32": """\
  Windows:  install MSYS2 from https://www.msys2.org, then in its UCRT64 window:
            pacman -S mingw-w64-ucrt-x86_64-cairo mingw-w64-ucrt-x86_64-pango
            and in your own window, with the folder of MSYS2's libraries:
            set CAIROCFFI_DLL_DIRECTORIES=C:\\msys64\\ucrt64\\bin
            set WEASYPRINT_DLL_DIRECTORIES=C:\\msys64\\ucrt64\\bin""",
}


class SetUpError(Exception):
    """The set-up cannot go on; the message says why and what the user can do."""


def run(*command: str | Path) -> subprocess.CompletedProcess[str]:
    """Run a command without showing what it prints (both streams are kept in `stdout`)."""
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    return subprocess.run(
        command, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
        encoding="utf-8", errors="replace", env=environment, cwd=ROOT, check=False,
    )  # fmt: skip


def tail(text: str, lines: int = 12) -> str:
    """The last lines of what a command printed, where its error stands, indented."""
    return "\n".join(f"  {line}" for line in text.strip().splitlines()[-lines:])


def apt_prefix() -> list[str] | None:
    """How this user may run apt without being asked for a password; None if not at all."""
    if shutil.which("apt-get") is None:
        return None
    if os.geteuid() == 0:
        return []
    if shutil.which("sudo") and run("sudo", "-n", "true").returncode == 0:
        return ["sudo", "-n"]
    return None


def apt_install(*packages: str) -> bool:
    """Install Debian packages where that is possible without a question; tells whether it was done."""
    prefix = apt_prefix()
    if prefix is None:
        return False
    print(f"Installing {' '.join(packages)} with apt ...", flush=True)
    install = [*prefix, "apt-get", "install", "-y", "-qq", "--no-install-recommends", *packages]
    if run(*install).returncode == 0:
        return True
    # A fresh machine has no package lists yet, an old one has lists that no longer hold.
    run(*prefix, "apt-get", "update", "-qq")
    done = run(*install)
    if done.returncode:
        print(tail(done.stdout), file=sys.stderr)
    return done.returncode == 0


def make_venv() -> None:
    """Make `.venv` unless a whole one for this Python is there."""
    version = "import sys; print(*sys.version_info[:2]); import pip"
    if PYTHON.exists() and run(PYTHON, "-c", version).stdout.split() == [*map(str, sys.version_info[:2])]:
        return
    make = (sys.executable, "-m", "venv", "--clear", VENV)
    made = run(*make)
    if made.returncode:
        # Debian keeps what makes an environment in a package of its own.
        package = f"python{sys.version_info[0]}.{sys.version_info[1]}-venv"
        if shutil.which("apt-get") is None:
            raise SetUpError(f"Python could not make a virtual environment:\n{tail(made.stdout)}")
        if not apt_install(package) or run(*make).returncode:
            raise SetUpError(
                "Python's part for virtual environments is missing. Install it, and the libraries that\n"
                "pictures and PDFs are drawn with, then run this again:\n"
                f"  Debian, Ubuntu:  sudo apt install {package} {' '.join(APT_LIBRARIES)}"
            )


def install_packages(extra: str) -> None:
    """Install kitwright from this folder, and what it needs at the pinned versions."""
    target = f"{ROOT}[test]" if extra == "test" else str(ROOT)
    installed = run(
        PYTHON, "-m", "pip", "install", "-qq", "--disable-pip-version-check", "--no-input",
        "--constraint", CONSTRAINTS, "--editable", target,
    )  # fmt: skip
    if installed.returncode:
        raise SetUpError(
            "pip could not install the packages. Is the network there? Its last words:\n"
            f"{tail(installed.stdout)}"
        )


def library_help(platform: str) -> str:
    """What to install on this platform (as in `sys.platform`); for an unknown one, all that is known."""
    return LIBRARY_HELP.get(platform) or "\n".join(LIBRARY_HELP.values())


def find_libraries() -> None:
    """See that cairo and pango load, and install them where that is possible."""
    if run(PYTHON, "-c", PROBE).returncode == 0:
        return
    if apt_install(*APT_LIBRARIES) and run(PYTHON, "-c", PROBE).returncode == 0:
        return
    raise SetUpError(
        "The system libraries cairo and pango are missing: pictures and PDFs are drawn with them.\n"
        f"Install them, then run this again:\n{library_help(sys.platform)}"
    )


def pin() -> None:
    """Write constraints.txt again with the newest versions that go together. For maintainers."""
    old = CONSTRAINTS.read_text(encoding="utf-8")
    head = [line for line in old.splitlines() if line.startswith("#")]
    foreign = [line for line in old.splitlines() if ";" in line and not line.startswith("#")]
    shutil.rmtree(VENV, ignore_errors=True)
    make_venv()
    installed = run(PYTHON, "-m", "pip", "install", "-qq", "--disable-pip-version-check", f"{ROOT}[test]")
    if installed.returncode:
        raise SetUpError(f"pip could not install the packages:\n{tail(installed.stdout)}")
    frozen = run(PYTHON, "-m", "pip", "freeze", "-qq", "--exclude", "kitwright").stdout.split()
    lines = sorted([*frozen, *foreign], key=str.casefold)
    CONSTRAINTS.write_text("\n".join([*head, *lines]) + "\n", encoding="utf-8")


def main(arguments: list[str]) -> int:
    """`site` and `test` get ready for that; `pins` renews constraints.txt."""
    if sys.version_info < (3, 11):  # noqa: UP036 - this file runs before the version is known
        print(f"Kitwright needs Python 3.11 or later; this is {sys.version.split()[0]}.", file=sys.stderr)
        return 2
    purpose = arguments[0] if arguments else "site"
    try:
        if purpose == "pins":
            pin()
            return 0
        print("Setting up .venv (a minute or so, only after a change) ...", flush=True)
        make_venv()
        install_packages(purpose)
        find_libraries()
    except SetUpError as error:
        print(error, file=sys.stderr)
        return 2
    MARKS["site"].touch()
    MARKS[purpose].touch()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
