#!/usr/bin/env python3
"""The top level holds what it should, and no source file has grown past knowing.

Usage: check_layout.py ROOT.
"""
import pathlib
import subprocess
import sys

TOP = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "LICENSE", "daemon", "plugins", "sdk", "tests",
       "config", "docs"}
LINES_MAX = 400


def main() -> int:
    root = pathlib.Path(sys.argv[1]).resolve()
    tracked = subprocess.run(["git", "-C", str(root), "ls-files"], capture_output=True, text=True,
                             check=True).stdout.split("\n")
    tracked = [name for name in tracked if name and (root / name).exists()]
    top = {name.split("/")[0] for name in tracked if not name.startswith(".")}
    faults = [f"missing at the top level: {name}" for name in sorted(TOP - top)]
    faults += [f"does not belong at the top level: {name}" for name in sorted(top - TOP)]
    for name in tracked:
        if not name.endswith((".hpp", ".cpp", ".h", ".c", ".py")):
            continue
        lines = len((root / name).read_text().splitlines())
        if lines > LINES_MAX:
            faults.append(f"{name}: {lines} lines; take it apart (at most {LINES_MAX})")
    print("\n".join(faults) if faults else f"{len(tracked)} tracked files, laid out as they should be")
    return 1 if faults or not tracked else 0


if __name__ == "__main__":
    sys.exit(main())
