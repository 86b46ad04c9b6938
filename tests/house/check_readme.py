#!/usr/bin/env python3
"""Runs every `barm` command of the README, in its order, against a daemon of its own.

Usage: check_readme.py BUILD-FOLDER README.  Exits 1 if one is refused or none is found.
"""
import os
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile
import time


def commands_of(text: str) -> list[str]:
    """Lines that are commands, and commands in the sentences between them, in their order."""
    found = re.finditer(r"^    (barm(?: .+)?)$|`(barm [^`]+)`", text, re.MULTILINE)
    commands = [" ".join((match[1] or match[2]).split()) for match in found]
    return [command for command in commands if "..." not in command]


def main() -> int:
    build, readme = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2])
    commands = commands_of(readme.read_text())
    with tempfile.TemporaryDirectory() as folder:
        socket = f"{folder}/sock"
        daemon = subprocess.Popen(
            [build / "bin/barmkeepd", "--config", "/dev/null", "--set", f"ledger.file={folder}/l",
             "--set", f"socket.path={socket}", "--set", f"plugins.folders={build}/plugins",
             "--clock", "2026-03-02T08:00:00Z"], stderr=subprocess.DEVNULL)
        try:
            limit = time.monotonic() + 30
            while not os.path.exists(socket) and time.monotonic() < limit:
                time.sleep(0.05)
            environment = {**os.environ, "BARMKEEP_SOCKET": socket, "PAGER": "cat"}
            refused = 0
            for command in commands:
                words = shlex.split(command)
                # A process is the brewer's own, so the README names the command alone.
                if words == ["barm", "process", "set"]:
                    words.append("--help")
                words[0] = str(build / "bin/barm")
                done = subprocess.run(words, env=environment, capture_output=True, text=True)
                if done.returncode != 0:
                    refused += 1
                    print(f"{command}\n    exit {done.returncode}: {done.stderr.strip()}")
        finally:
            daemon.terminate()
            daemon.wait()
    print(f"{len(commands)} commands of the README, {refused} refused")
    return 1 if refused or not commands else 0


if __name__ == "__main__":
    sys.exit(main())
