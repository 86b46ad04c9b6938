#!/usr/bin/env python3
"""Types a line of barm into a real shell, lets it complete with the Tab key, and sees what barm gets.

Usage: completion_in_shells.py SHELL.  Exits 77 where there is no such shell.

The completion of the source tree is used, with a barm that offers fixed candidates and writes down
how it was called: what is tested is what the shell makes of a candidate, blanks and quotes too.
"""
import os
import pathlib
import pty
import select
import shutil
import signal
import sys
import tempfile

COMPLETIONS = pathlib.Path(__file__).resolve().parents[2] / "daemon/client/completions"
SECONDS_MAX = 20  # for a shell to start; more is a failure
SKIPPED = 77

BARM = """#!/bin/sh
if [ "$1" = complete ]; then
    shift 2
    for last; do :; done
    for candidate in stock starter "light dry extract" "Anna's malt" --category=extract --category=yeast; do
        case $candidate in "$last"*) printf '%s\\tof the test\\n' "$candidate" ;; esac
    done
    exit
fi
printf '%s\\n' "$@" end >"$CALLED.new" && mv "$CALLED.new" "$CALLED"
"""
# How each shell is started and set up.  What it then says is not in what was typed.
START = {
    "bash": (["bash", "--norc", "--noprofile", "-i"], "source {file}; echo set-$((1 + 1))-up\n"),
    "zsh": (["zsh", "-f", "-i"], "fpath=({folder} $fpath); autoload -U compinit; compinit -u -D; "
                                 "echo set-$((1 + 1))-up\n"),
    "fish": (["fish", "--no-config", "-i"], "source {file}; echo set-(math 1 + 1)-up\n"),
}
# What is typed, and the words that barm must be called with.
LINES = [
    ("barm sto\t", ["stock"]),
    ("barm stock use light\t", ["stock", "use", "light dry extract"]),
    ("barm stock use light\\ d\t", ["stock", "use", "light dry extract"]),
    ("barm stock use \"light d\t", ["stock", "use", "light dry extract"]),
    ("barm stock list --category=ex\t", ["stock", "list", "--category=extract"]),
    ("barm stock use Anna\t", ["stock", "use", "Anna's malt"]),
]


class Shell:
    """A shell on a terminal of its own."""

    def __init__(self, command: list[str], environment: dict[str, str]):
        self.process, self.terminal = pty.fork()
        if self.process == 0:
            os.execvpe(command[0], command, environment)
        self.said = b""

    def type(self, text: str) -> None:
        os.write(self.terminal, text.encode())

    def wait_until(self, come) -> bool:
        """Reads what the shell says until `come` holds."""
        while not come():
            ready, _, _ = select.select([self.terminal], [], [], SECONDS_MAX)
            if not ready:
                return False
            try:
                self.said += os.read(self.terminal, 65536)
            except OSError:
                return come()
        return True

    def end(self) -> None:
        os.kill(self.process, signal.SIGKILL)
        os.waitpid(self.process, 0)
        os.close(self.terminal)


def called_with(shell_name: str, folder: pathlib.Path, line: str) -> list[str] | None:
    """The words barm was called with; nothing if it was not called."""
    called = folder / "called"
    called.unlink(missing_ok=True)
    environment = {"PATH": f"{folder}:{os.environ['PATH']}", "HOME": str(folder), "TERM": "dumb",
                   "LANG": "C.UTF-8", "CALLED": str(called), "PS1": "ready> "}
    command, setting_up = START[shell_name]
    shell = Shell(command, environment)
    try:
        file = COMPLETIONS / f"barm.{shell_name}"
        shell.type(setting_up.format(file=file, folder=folder))
        if not shell.wait_until(lambda: b"set-2-up" in shell.said):
            return None
        shell.type(line + "\n")
        if not shell.wait_until(called.exists):
            return None
        return called.read_text().splitlines()[:-1]
    finally:
        shell.end()


def main() -> int:
    name = sys.argv[1]
    if shutil.which(name) is None:
        print(f"There is no {name} here.")
        return SKIPPED
    faults = 0
    with tempfile.TemporaryDirectory() as made:
        folder = pathlib.Path(made)
        (folder / "barm").write_text(BARM)
        (folder / "barm").chmod(0o755)
        shutil.copy(COMPLETIONS / "barm.zsh", folder / "_barm")
        for line, wanted in LINES:
            found = called_with(name, folder, line)
            if found != wanted:
                faults += 1
                print(f"{name}: {line!r} called barm with {found}, not with {wanted}")
    print(f"{len(LINES)} lines, {faults} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
