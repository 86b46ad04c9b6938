#!/usr/bin/env python3
"""Includes follow the arrows between the rooms; foreign libraries stay in the room that wraps them.

Usage: check_arrows.py ROOT.  Prints every include against the arrows; exits 1 if there is one.
"""
import pathlib
import re
import sys

# Each room and the rooms it may include from, besides itself.
SYSTEM = {"sdk/system"}
SCIENCE = {"sdk/brewing"}
METHOD = SCIENCE | {"sdk/method"}
CONTRACT = METHOD | {"sdk/contract"}
SHEET = CONTRACT | {"sdk/sheet"}
PLUGIN = SHEET | {"sdk/abi", "sdk/plugin"}
ARROWS = {
    "sdk/system": set(),
    "sdk/brewing": set(),
    "sdk/abi": set(),
    "sdk/method": SCIENCE,
    "sdk/contract": METHOD,
    "sdk/sheet": CONTRACT,
    "sdk/plugin": SHEET | {"sdk/abi"},
    "sdk/client": SHEET | SYSTEM,
    "daemon/settings": CONTRACT | {"sdk/client"},
    "daemon/executor": METHOD,
    "daemon/ledger": SHEET | SYSTEM | {"daemon/executor"},
    "daemon/sheets": SHEET,
    "daemon/sources": SHEET,
    "daemon/protocol": SHEET,
    "daemon/socket": CONTRACT | SYSTEM | {"daemon/protocol"},
    "daemon/host": PLUGIN | SYSTEM | {"daemon/executor"},
    "daemon/client": SHEET | SYSTEM | {"sdk/client"},
    # main.cpp and its helpers wire the rooms together.
    "daemon": SHEET | {"daemon/settings", "daemon/executor", "daemon/ledger",
                       "daemon/protocol", "daemon/socket", "daemon/host", "daemon/sources",
                       "daemon/sheets",
                       "sdk/client"},
}
# A foreign header and the only rooms that may include it.
WRAPPED = {
    r"sqlite3\.h|SQLiteCpp/": {"daemon/ledger"},
    r"boost/asio": {"daemon/socket", "daemon/executor"},
    r"boost/dll": {"daemon/host", "sdk/plugin"},
    r"toml\+\+/": {"daemon/settings", "daemon/client", "sdk/client"},
    r"systemd/": {"daemon"},
}
INCLUDE = re.compile(r'^\s*#\s*include\s+(["<])([^">]+)[">]')


def room_of(path: str) -> str | None:
    parts = path.split("/")
    for depth in (2, 1):
        room = "/".join(parts[:depth])
        if room in ARROWS and len(parts) > depth:
            return room
    if parts[0] == "plugins" and len(parts) > 2:
        return "plugins/" + parts[1]
    return None


def faults_of(root: pathlib.Path, file: pathlib.Path) -> list[str]:
    name = file.relative_to(root).as_posix()
    room = room_of(name)
    if room is None:
        return [f"{name}: stands in no room that check_arrows.py knows"]
    allowed = (PLUGIN if room.startswith("plugins/") else ARROWS[room]) | {room}
    faults = []
    for number, line in enumerate(file.read_text().splitlines(), 1):
        match = INCLUDE.match(line)
        if not match:
            continue
        quote, target = match.groups()
        if quote == '"' or target.split("/")[0] in {"sdk", "daemon", "plugins"}:
            other = room_of(target)
            if other is None:
                faults.append(f"{name}:{number}: write the include from the root: {target}")
            elif other not in allowed:
                faults.append(f"{name}:{number}: {room} may not include from {other}: {target}")
        for pattern, rooms in WRAPPED.items():
            if re.match(pattern, target) and room not in rooms:
                faults.append(f"{name}:{number}: <{target}> belongs in {', '.join(sorted(rooms))} only")
    return faults


def main() -> int:
    root = pathlib.Path(sys.argv[1]).resolve()
    faults, files = [], 0
    for top in ("sdk", "daemon", "plugins"):
        for file in sorted((root / top).rglob("*")):
            if file.suffix in {".hpp", ".cpp", ".h", ".c"}:
                files += 1
                faults += faults_of(root, file)
    print("\n".join(faults) if faults else f"{files} files follow the arrows")
    return 1 if faults or files == 0 else 0


if __name__ == "__main__":
    sys.exit(main())
