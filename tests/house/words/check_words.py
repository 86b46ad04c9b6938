#!/usr/bin/env python3
"""Looks for words that must not come back (banned.py) in docs, help, errors and comments.

Usage: check_words.py ROOT [--show ROOM].  Prints how often each stands in each room; fails for a
word in a room that is switched on.  --show lists the places of one room, whether it is on or off.
"""
import collections
import fnmatch
import functools
import pathlib
import re
import subprocess
import sys

import banned

SOURCES = (".cpp", ".hpp", ".h", ".c")
# Made from the sources, which are searched themselves; or the words of others.
PASSED_OVER = {"docs/methods.md", "docs/barm.1", "docs/barmkeepd.8", "config/barmkeepd.toml",
               "tests/protocol/data/json_schema_meta_schema_LICENSE.md",
               "tests/protocol/data/openrpc_meta_schema_LICENSE.md"}
MISTAKES = "tests/house/mutants/list.txt"
# A comment or a text of C++; a raw text is taken whole.
PROSE = re.compile(r'//[^\n]*|/\*.*?\*/|R"(\w*)\(.*?\)\1"|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])\'',
                   re.DOTALL)
PYTHON_PROSE = re.compile(r'#[^\n]*|""".*?"""|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'', re.DOTALL)


def room_of(name: str) -> str:
    """daemon/client for daemon/client/help.cpp, daemon/* for daemon/main.cpp; pages by themselves."""
    parts = name.split("/")
    if name.endswith(".md"):
        return name
    return "/".join(parts[:2]) if len(parts) > 2 else parts[0] + "/*" if len(parts) == 2 else name


def prose_of(name: str, text: str) -> str:
    """Comments and texts with everything else blanked, so that places stay where they are."""
    if name == MISTAKES:  # its lines of code belong to the rooms that they are taken from
        return re.sub(r"(?m)^(?:was|now|after) .*", lambda match: " " * len(match[0]), text)
    pattern = PROSE if name.endswith(SOURCES) else PYTHON_PROSE if name.endswith(".py") else None
    if pattern is None:
        return text
    kept = list(re.sub(r"[^\n]", " ", text))
    for match in pattern.finditer(text):
        if not match[0].startswith("'") or name.endswith(".py"):
            kept[match.start():match.end()] = match[0]
    # Lines of a comment, and texts side by side, are one sentence.
    return "".join(kept)


def one_line(text: str) -> str:
    """Newlines, quotes and comment marks as spaces, one for one: a phrase may be broken there."""
    text = re.sub(r'"(\s*\n\s*)"', lambda match: " " * len(match[0]), text)
    return re.sub(r"\n(\s*)(//+!?<?|#)?", lambda match: " " * len(match[0]), text)


@functools.cache
def searched_for(one: banned.Banned) -> re.Pattern:
    """Matches the word in small letters."""
    # The parts of a name are words, too: best_by has best and by.
    edge = (r"(?<![a-z0-9])", r"(?![a-z0-9])") if one.in_names else (r"(?<!\w)", r"(?!\w)")
    return re.compile(edge[0] + "(?:" + one.pattern.replace(" ", r"\s+") + ")" + edge[1])


def found_in(name: str, text: str, used: set | None = None):
    """(line, word banned, words found) for each place, without those excepted; adds the exceptions
    that were needed to `used`."""
    excepted = {one.word: one for one in banned.EXCEPTIONS if one.path == name}
    used = set() if used is None else used
    prose = re.sub(r" {2,}", lambda match: " " * len(match[0]), one_line(prose_of(name, text)))
    plain = prose if name == MISTAKES else one_line(text)
    lower = {True: plain.lower(), False: prose.lower()}
    for one in banned.BANNED:
        for match in searched_for(one).finditer(lower[one.in_names]):
            words = " ".join(match[0].split())
            exception = excepted.get(words.lower(), excepted.get("*"))
            if exception is not None:
                used.add(exception)
            else:
                yield text.count("\n", 0, match.start()) + 1, one, words


def files_of(root: pathlib.Path) -> list[str]:
    listed = subprocess.run(["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
                            cwd=root, check=True, capture_output=True).stdout.decode().split("\0")
    return sorted(name for name in listed if name.endswith((*SOURCES, ".py", ".md", ".txt", ".in"))
                  and name not in PASSED_OVER and (root / name).is_file())


def is_on(room: str) -> bool:
    # fnmatch would read the star of daemon/* as any room below it.
    return room in banned.ROOMS_ON


def main() -> int:
    root = pathlib.Path(sys.argv[1]).resolve()
    shown = sys.argv[3] if len(sys.argv) > 3 and sys.argv[2] == "--show" else None
    counts = collections.defaultdict(collections.Counter)
    rooms, faults, used = set(), [], set()
    for name in files_of(root):
        room = room_of(name)
        rooms.add(room)
        for line, one, words in found_in(name, (root / name).read_text(), used):
            counts[room][words.lower()] += 1
            place = f"{name}:{line}: '{words}': write {one.use} ({one.why})"
            if is_on(room):
                faults.append(place)
            elif shown is not None and fnmatch.fnmatch(room, shown):
                print(place)
    for room in sorted(counts):
        total = sum(counts[room].values())
        print(f"{'on ' if is_on(room) else 'off'} {room}: {total} ("
              + ", ".join(f"{word} {count}" for word, count in counts[room].most_common()) + ")")
    faults += [f"banned.py: there is no room {room}" for room in banned.ROOMS_ON if room not in rooms]
    faults += [f"banned.py: {one.path} needs no exception for '{one.word}'"
               for one in banned.EXCEPTIONS if one not in used]
    print("\n".join(faults) if faults
          else f"{len(banned.BANNED)} words banned, none in {len(banned.ROOMS_ON)} rooms")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
