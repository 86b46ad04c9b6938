#!/usr/bin/env python3
"""Compares the names of all methods and fields with docs/glossary.md, and the help with the methods.

Usage: check_names.py BUILD-FOLDER ROOT.  Starts a daemon with all plugins.  Fails if the name of a
method or field uses a word that the glossary gives as "not this word", in a room that is switched
on; if the help of a topic names a command that does not exist; or if a method has no topic.
"""
import collections
import json
import os
import pathlib
import re
import socket
import subprocess
import sys
import tempfile
import time

# Who provides the methods.  Of the others only counts are printed: add them once they are clean.
PROVIDERS_ON = ["canning", "core", "cost", "reorder", "starter"]
OWN_COMMANDS = {"help", "manual", "settings", "send", "complete", "NOUN"}


def unwanted_words(glossary: str) -> dict[str, str]:
    """The word to use for each unwanted word, from the rows of the tables."""
    words = {}
    for row in re.findall(r"^\|(.+)\|$", glossary, re.MULTILINE):
        cells = [cell.strip() for cell in row.split("|")]
        if len(cells) != 3 or cells[0] == "word" or set(cells[0]) == {"-"}:
            continue
        for word in cells[2].split(","):
            words[word.strip().lower()] = cells[0]
    return words


def parts_of(name: str) -> list[str]:
    return re.split(r"[._ -]", name.lower())


def unwanted_in(name: str, words: dict[str, str]) -> list[str]:
    """The unwanted words in a name: whole parts of it; a word with a dot is a whole method."""
    parts = parts_of(name)
    found = []
    for word in words:
        if "." in word:
            if name == word:
                found.append(word)
            continue
        wanted = parts_of(word)
        if any(parts[at:at + len(wanted)] == wanted for at in range(len(parts))):
            found.append(word)
    return found


def fields_of(schema) -> set[str]:
    """Names of all fields in a schema, however deep."""
    if not isinstance(schema, dict):
        return set()
    names = set()
    for name, inner in schema.get("properties", {}).items():
        names |= {name} | fields_of(inner)
    for within in ("items", "additionalProperties"):
        names |= fields_of(schema.get(within))
    return names


def names_of(method: dict) -> set[str]:
    names = {method["name"]} | fields_of(method["result"]["schema"])
    for param in method["params"]:
        names |= {param["name"]} | fields_of(param["schema"])
    return names


def faults_in_names(document: dict, words: dict[str, str]) -> dict[str, set[str]]:
    """Sentences by provider."""
    faults = collections.defaultdict(set)
    for method in document["methods"]:
        for name in names_of(method):
            for word in unwanted_in(name, words):
                faults[method["x-provider"]].add(
                    f"{method['name']}: '{name}': the glossary says '{words[word]}', not '{word}'")
    return faults


def commands_in(help_text: str) -> set[str]:
    """"stock buy" for each `barm stock buy` in a help text."""
    text = " ".join(help_text.split())
    return {match.strip() for match in re.findall(r"`barm((?: [A-Za-z-]+)+)", text)}


def faults_in_help(methods: set[str], help_texts: dict[str, str]) -> list[str]:
    commands = {name.replace("_", "-").replace(".", " ") for name in methods}
    faults = []
    for topic, text in help_texts.items():
        faults += [f"barm help {topic}: there is no command '{command}'"
                   for command in sorted(commands_in(text))
                   if command not in commands and command.split()[0] not in OWN_COMMANDS
                   and command != "plugin list"]
    if "\n  " in help_texts.get("more", ""):
        faults.append("barm help more: these commands have no topic in daemon/client/topics.cpp:"
                      + help_texts["more"].split("\n\n")[-2])
    return faults


def discover(path: str) -> dict:
    with socket.socket(socket.AF_UNIX) as connection:
        connection.settimeout(30)
        connection.connect(path)
        connection.sendall(b'{"jsonrpc":"2.0","id":1,"method":"rpc.discover"}\n')
        return json.loads(connection.makefile().readline())["result"]


def asked(build: pathlib.Path) -> tuple[dict, dict[str, str]]:
    """The discover document of a daemon with all plugins, and its help by topic."""
    with tempfile.TemporaryDirectory() as folder:
        path = f"{folder}/sock"
        daemon = subprocess.Popen(
            [build / "bin/barmkeepd", "--config", "/dev/null", "--set", f"ledger.file={folder}/l",
             "--set", f"socket.path={path}", "--set", f"plugins.folders={build}/plugins"],
            stderr=subprocess.DEVNULL)
        try:
            limit = time.monotonic() + 30
            while not os.path.exists(path) and time.monotonic() < limit:
                time.sleep(0.05)
            barm = [build / "bin/barm", "--socket", path, "--no-pager", "help"]
            whole = subprocess.run(barm, capture_output=True, text=True, check=True).stdout
            topics = [*re.findall(r"\(`barm help ([a-z-]+)`\)", whole), "more"]
            return discover(path), {
                topic: subprocess.run([*barm, topic], capture_output=True, text=True,
                                      check=True).stdout for topic in topics}
        finally:
            daemon.terminate()
            daemon.wait()


def main() -> int:
    build, root = (pathlib.Path(one).resolve() for one in sys.argv[1:3])
    words = unwanted_words((root / "docs/glossary.md").read_text())
    document, help_texts = asked(build)
    providers = {method["x-provider"] for method in document["methods"]}
    by_provider = faults_in_names(document, words)
    faults = faults_in_help({method["name"] for method in document["methods"]}, help_texts)
    for provider in sorted(providers):
        found = sorted(by_provider[provider])
        print(f"{'on ' if provider in PROVIDERS_ON else 'off'} {provider}: {len(found)} names")
        print("".join(f"    {fault}\n" for fault in found), end="")
        if provider in PROVIDERS_ON:
            faults += found
    faults += [f"nobody provides {one}" for one in PROVIDERS_ON if one not in providers]
    if len(help_texts) < 5 or not words:
        faults.append("the glossary or the help could not be read")
    print("\n".join(faults) if faults
          else f"{len(document['methods'])} methods, {len(words)} words, {len(help_texts)} topics")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
