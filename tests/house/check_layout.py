#!/usr/bin/env python3
"""The top level holds what it should, no source file has grown past knowing, and every script can be called.

Usage: check_layout.py ROOT.
"""
import os
import pathlib
import sys

TOP = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "LICENSE", "daemon", "plugins", "sdk", "tests",
       "config", "docs"}
LINES_MAX = 400


def files_below(root: pathlib.Path) -> list[str]:
    """All files but those of hidden and build folders, which git ignores too."""
    found = []
    for folder, inner, names in os.walk(root):
        if pathlib.Path(folder) == root:
            inner[:] = [name for name in inner if not name.startswith((".", "build"))]
        inner[:] = [name for name in inner if name != "__pycache__"]
        found += [(pathlib.Path(folder) / name).relative_to(root).as_posix() for name in names]
    return sorted(found)


def main() -> int:
    root = pathlib.Path(sys.argv[1]).resolve()
    files = files_below(root)
    top = {name.split("/")[0] for name in files if not name.startswith(".")}
    top.discard("compile_commands.json")
    faults = [f"missing at the top level: {name}" for name in sorted(TOP - top)]
    faults += [f"does not belong at the top level: {name}" for name in sorted(top - TOP)]
    # A script that only lacks its mode passes until the one gate that calls it.
    faults += [f"{name}: a script without the right to run; chmod +x it" for name in files
               if (root / name).read_bytes()[:2] == b"#!" and not os.access(root / name, os.X_OK)]
    for name in files:
        if not name.endswith((".hpp", ".cpp", ".h", ".c", ".py")):
            continue
        lines = len((root / name).read_text().splitlines())
        if lines > LINES_MAX:
            faults.append(f"{name}: {lines} lines; take it apart (at most {LINES_MAX})")
    print("\n".join(faults) if faults else f"{len(files)} files, laid out as they should be")
    return 1 if faults or not files else 0


if __name__ == "__main__":
    sys.exit(main())
