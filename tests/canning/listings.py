#!/usr/bin/env python3
"""Runs a canning season on a real daemon and puts what `barm` prints into docs/canning.md.

Usage: listings.py BUILD PAGE           writes the listings of the page again
       listings.py BUILD PAGE --check   exits 1 if the page differs from what the programs print
"""
import datetime
import fcntl
import getpass
import json
import os
import pathlib
import pty
import re
import shlex
import struct
import subprocess
import sys
import tempfile
import termios
import time

START = datetime.datetime(2026, 3, 2, 8, 0, tzinfo=datetime.timezone.utc)
MARK = "<!-- listing {}: {} -->"
PROCESS = "--process notebook"


def at(day: int, hour: int, minute: int) -> str:
    moment = START + datetime.timedelta(days=day, hours=hour - 8, minutes=minute)
    return moment.strftime("%Y-%m-%dT%H:%M:%SZ")


# Each step is a command that is shown, or one with a leading '-' that is only run, or a clock.
CELLAR = [
    "-cellar set --name 'Larder' --altitude '353 m' --currency EUR",
    "-good add 'light dry extract' extract --package '500 g' --potential 1.044",
    "-good add lids lids --package 12",
    "-good add 'pint of wort' concentrate",
    "-stock buy 'light dry extract' '380 g' 4.20 --supplier 'corner shop' --best-by 2026-06-30",
    "-stock buy 'light dry extract' '500 g' 5.90 --supplier 'mill shop' --best-by 2027-03-31",
    "-stock buy lids 24 6 --supplier 'corner shop'",
    "-jar set pint '415 mL' --headspace '1 in' --size pint",
    "-canner set kettle dial --capacity jar=pint,count=7 --gauge-tested 2026-01-10 --gauge-error '0.5 psi'",
]
AT_PRESSURE = [step for minute in range(5, 55, 5)
        for step in (at(0, 9, 12 + minute), "-run gauge 1 '13 psi'")]
SECTIONS = {
    "cautions": ["canning cautions opening"],
    "plan": CELLAR + ["canning plan pint --fill-canner --makes '1 L' --at 1.035"],
    "short": ["canning plan pint 14 --makes '1 L' --at 1.035"],
    "reference": ["process reference"],
    "process": [
        "!process set bath pint dial --appliance boiling_water_bath --pressure '0 psi' --time '90 min' "
        "--source 'a neighbour'",
        "!process set low pint dial --pressure '10 psi' --time '51 min' --source 'an invented example'",
        "process set notebook pint dial --appliance pressure_canner --pressure '12 psi' --time '51 min' "
        "--source 'invented for this page, not a tested process'",
    ],
    "start": [f"run start pint 7 --makes '1 L' --at 1.035 {PROCESS}"],
    "venting": [at(0, 8, 50), "-run log 1 steam_flows", at(0, 8, 57), "run show 1",
                at(0, 9, 1), "-run log 1 weight_on"],
    "drop": [at(0, 9, 5), "-run gauge 1 '13 psi'", at(0, 9, 10), "run gauge 1 '11.5 psi'"],
    "seal": [at(0, 9, 12), "-run gauge 1 '13 psi'"] + AT_PRESSURE + [
        at(0, 10, 3), "-run log 1 heat_off", at(0, 10, 40), "-run gauge 1 '0 psi'", at(0, 10, 51),
        "-run log 1 opened",
        at(0, 18, 0), "!run seal-test 1 5 --failed 2",
        at(1, 7, 0), "run seal-test 1 5 --failed 2"],
    "measure": ["run measure @jars --gravity 1.0845 --fill '412 mL'"],
    "opening": ["-brew plan 2026-03-14 'Larder ale'", at(12, 9, 0), "opening show @jars",
                "opening record @jars 1 --looked --listened --smelled --brew 1"],
    "trace": ["trace lot @jars"],
}


WEIGHTS = ["85 g", "95 g", "100 g", "4 oz", "125 g"]


class Season:
    def __init__(self, build: pathlib.Path, folder: pathlib.Path):
        self.barm = build / "bin/barm"
        self.folder = folder
        self.daemon = subprocess.Popen(
            [build / "bin/barmkeepd", "--config", "/dev/null", "--set", f"ledger.file={folder}/ledger",
             "--set", f"socket.path={folder}/sock", "--set", f"plugins.folders={build}/plugins",
             "--clock", at(0, 8, 0)], stderr=open(folder / "log", "w"))
        for _ in range(600):
            if (folder / "sock").exists():
                return
            if self.daemon.poll() is not None:
                break
            time.sleep(0.05)
        sys.exit((folder / "log").read_text())

    def environment(self) -> dict[str, str]:
        return {"BARMKEEP_SOCKET": f"{self.folder}/sock", "LANG": "C.UTF-8", "NO_COLOR": "1",
                "HOME": str(self.folder), "PATH": "/usr/bin:/bin", "TERM": "dumb"}

    def run(self, arguments: list[str]) -> tuple[int, str]:
        """Runs a command on a terminal of its own, so that it lays out as for a person."""
        ours, its = pty.openpty()
        fcntl.ioctl(its, termios.TIOCSWINSZ, struct.pack("HHHH", 2000, 100, 0, 0))
        child = subprocess.Popen([self.barm, *arguments], stdin=its, stdout=its, stderr=its,
                                 env=self.environment())
        os.close(its)
        text = b""
        while True:
            try:
                piece = os.read(ours, 65536)
            except OSError:  # the other side has closed
                break
            if not piece:
                break
            text += piece
        os.close(ours)
        said = text.decode().replace("\r\n", "\n").replace("\r\x1b[K", "")
        return child.wait(), "\n".join(line.rstrip() for line in said.split("\n"))

    def step(self, step: str) -> str:
        if step[:2] == "20":
            step = f"-clock set {step}"
        if "@jars" in step:
            step = step.replace("@jars", self.jars())
        quiet, refused = step.startswith("-"), step.startswith("!")
        words = shlex.split(step.lstrip("-!"))
        code, text = self.run(words)
        if (code != 0) != refused:
            sys.exit(f"barm {shlex.join(words)}\n{text}")
        # The log names who logged; the page must not depend on who makes it.
        text = re.sub(rf"\b{re.escape(getpass.getuser())}$", "anna", text, flags=re.MULTILINE)
        return "" if quiet else f"$ barm {step.lstrip('!')}\n{text}"

    def jars(self) -> str:
        """The code of the first lot of jars that were made."""
        said = subprocess.run([self.barm, "--json", "stock", "list", "pint of wort"], check=True,
                              capture_output=True, env=self.environment()).stdout
        shelves = json.loads(said)["shelves"]
        return min(lot["code"] for lot in shelves[0]["lots"])

    def weights(self) -> str:
        """A table of what a weight of extract in one jar gives."""
        lines = ["| extract | gravity in the jar | water | made up to 1 L |", "|---|---|---|---|"]
        for weight in WEIGHTS:
            said = subprocess.run(
                [self.barm, "--json", "canning", "plan", "pint", "1", "--weigh", weight,
                 "--makes", "1 L"], check=True, capture_output=True, env=self.environment()).stdout
            each = json.loads(said)["each"]
            lines.append(f"| {weight} | {each['gravity']['likely']:.4f} | {each['water']:.0f} g "
                         f"| {each['makes_gravity']['likely']:.4f} |")
        return "\n".join(lines)

    def close(self) -> None:
        self.daemon.terminate()
        self.daemon.wait()


def recorded(build: pathlib.Path) -> dict[str, str]:
    with tempfile.TemporaryDirectory(prefix="canning-") as name:
        season = Season(build, pathlib.Path(name))
        try:
            listings = {}
            for section, steps in SECTIONS.items():
                listings[section] = "".join(season.step(step) for step in steps)
                if section == "plan":  # with all stock still there
                    listings["weights"] = season.weights()
            return listings
        finally:
            season.close()


def shortened(text: str) -> str:
    """Leaves out the cautions, which stand at the end of every answer; the page shows them once."""
    lines, kept, inside = text.split("\n"), [], False
    for line in lines:
        if line.startswith("cautions"):
            inside = True
            kept.append("cautions  (left out on this page; see above)")
        elif inside and line and not line.startswith(" "):
            inside = False
        if not inside:
            kept.append(line)
    return "\n".join(kept)


def filled(page: str, listings: dict[str, str]) -> str:
    for name, text in listings.items():
        if name != "cautions":
            text = shortened(text)
        begin, end = MARK.format(name, "begin"), MARK.format(name, "end")
        if begin not in page or end not in page:
            sys.exit(f"the page has no place for the listing '{name}'")
        before, rest = page.split(begin, 1)
        after = rest.split(end, 1)[1]
        fence = "" if name == "weights" else "```\n"  # a table, and no text of a terminal
        page = f"{before}{begin}\n{fence}{text.rstrip()}\n{fence}{end}{after}"
    return page


def main() -> int:
    build, path = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2])
    page = path.read_text()
    made = filled(page, recorded(build))
    if "--check" in sys.argv:
        if made != page:
            print(f"{path} differs from what the programs print; write it again with\n"
                  f"  tests/canning/listings.py {build} {path}")
        return made != page
    path.write_text(made)
    return 0


if __name__ == "__main__":
    sys.exit(main())
