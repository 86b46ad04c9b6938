"""Words that must not come back, and why; the rooms in which they are looked for."""
import dataclasses

# Rooms in which a banned word fails the test.  Of the others check_words.py only prints counts: add
# a room here as soon as its count is 0.
ROOMS_ON = [
    "README.md", "DEVELOPERS.md", "docs/architecture.md", "docs/barm.md", "docs/glossary.md",
    "docs/operations.md", "docs/plugins.md", "docs/protocol.md",
    "daemon/client", "daemon/host", "daemon/protocol", "daemon/settings", "daemon/socket",
    "daemon/*", "daemon/executor", "daemon/ledger", "daemon/sheets", "daemon/sources",
    "docs/canning.md", "docs/cost.md", "docs/reorder.md", "docs/safety.md", "docs/science.md",
    "docs/sheets.md", "docs/starter.md", "plugins/canning", "plugins/cost", "plugins/reorder",
    "plugins/starter", "sdk/abi", "sdk/brewing", "sdk/contract", "sdk/method", "sdk/sheet",
    "tests/bench", "tests/brewing", "tests/canning", "tests/cost", "tests/crash", "tests/executor",
    "tests/ledger", "tests/method", "tests/published", "tests/reorder", "tests/sheet",
    "tests/sheets", "tests/sources", "tests/starter", "tests/system",
    "sdk/client", "sdk/plugin", "tests/client", "tests/host", "tests/house",
    "tests/outside", "tests/plugin", "tests/protocol", "tests/settings", "tests/socket",
]


@dataclasses.dataclass(frozen=True)
class Banned:
    pattern: str  # a regular expression between word boundaries; letters of either case
    use: str  # what to write
    why: str
    in_names: bool = False  # looked for in names of the code, too, not only in its texts


BANNED = [
    # Plain words.
    Banned(r"tells?|told|telling", "shows, prints, lists, says", "a program shows or prints"),
    Banned(r"anew", "again", "old word"),
    Banned(r"mends?|mended|mending", "fix", "old word"),
    Banned(r"ma[dk]es? (?:\w+ ){0,3}known", "add", "a good is added"),
    Banned(r"shall", "must, should", "old word"),
    Banned(r"below nothing", "cannot be negative", "the field's word"),
    Banned(r"have again", "restock", "the field's word"),
    Banned(r"lest", "so that ... not", "old word"),
    Banned(r"(?:in|from) \w+ stead", "in place of, instead", "old word"),
    Banned(r"sees? to (?:it|that)", "checks, makes sure", "old word"),
    Banned(r"rid of", "remove", "vague"),
    Banned(r"heeds?|heeded", "follow, check", "old word"),
    Banned(r"whilst|hence|thereof|wherein|thence", "while, so, of it, in which", "old word"),
    Banned(r"he|his|him|himself", "you, they, the brewer", "not every brewer is a man"),
    Banned(r"rubbish", "invalid", "names the fault", in_names=True),
    # One concept, one word (docs/glossary.md).
    Banned(r"memos?", "note", "one word for free text", in_names=True),
    Banned(r"sets? aside|set_aside|setting aside", "reserve", "one word for promised stock",
           in_names=True),
    Banned(r"transcripts?", "log", "one word for what a run recorded", in_names=True),
    Banned(r"hybrid", "name what is combined", "means nothing to a brewer", in_names=True),
    Banned(r"schools?", "largest growth in one step", "means nothing to a brewer", in_names=True),
    Banned(r"aeration", "stirred", "the option says whether a stirrer is used", in_names=True),
    Banned(r"headroom", "foam space", "one word for the room for foam", in_names=True),
    Banned(r"surroundings|patience|seats?", "context, time limit, slot",
           "the field's word", in_names=True),
]


@dataclasses.dataclass(frozen=True)
class Exception_:
    path: str
    word: str
    why: str


# The only places in rooms that are on where such a word may stand.
EXCEPTIONS = [
    Exception_("tests/house/words/banned.py", "*", "the list itself"),
    *(Exception_("docs/glossary.md", word, "its column of words that are not used")
      for word in ("memo", "set aside", "transcript", "school", "aeration", "headroom")),
    Exception_("tests/client/manual_test.cpp", "he", "the first letters of help, to complete"),
    Exception_("tests/house/words/check_words_test.py", "*", "shows that each word is found"),
]
