#!/usr/bin/env python3
"""check_words.py and check_names.py find what they are there to find: each word is seen failing."""
import unittest

import banned
import check_names
import check_words

# One phrase for each row of banned.BANNED, in its order of words there.
PHRASES = [
    "it tells you", "count anew", "what mends it", "makes a good known", "you shall not",
    "it is below nothing", "when to have again", "lest it fails", "in its stead", "it sees to it",
    "be rid of", "it heeds them", "and hence", "as he said", "pure rubbish", "the memo",
    "what is set aside", "a transcript", "the hybrid way", "the school", "the aeration",
    "the headroom", "the patience",
]


def found(name: str, text: str) -> list[str]:
    return [words.lower() for _, _, words in check_words.found_in(name, text)]


class Words(unittest.TestCase):
    def test_each_banned_word_is_found_in_docs_comments_texts_and_help(self):
        self.assertEqual(len(PHRASES), len(banned.BANNED))
        for phrase, one in zip(PHRASES, banned.BANNED):
            for name, text in (("docs/a.md", phrase), ("daemon/x/a.cpp", f"// {phrase}\n"),
                               ("daemon/x/a.cpp", f'f("{phrase}");\n'),
                               ("daemon/x/a.hpp", f"/* {phrase} */\n"),
                               ("tests/x/a.py", f"# {phrase}\n")):
                hits = [hit for _, hit, _ in check_words.found_in(name, text)]
                self.assertEqual(hits, [one], f"{phrase} in {name}")

    def test_a_phrase_broken_over_lines_is_found(self):
        self.assertEqual(found("docs/a.md", "What is set\naside"), ["set aside"])
        self.assertEqual(found("daemon/x/a.cpp", "/// What is set\n    /// aside.\n"), ["set aside"])
        self.assertEqual(found("daemon/x/a.cpp", 'f("What is set "\n  "aside");'), ["set aside"])

    def test_a_name_is_searched_for_words_of_concepts_only(self):
        self.assertEqual(found("daemon/x/a.cpp", "int memo_size = set_aside(his);"),
                         ["memo", "set_aside"])
        self.assertEqual(found("daemon/x/a.cpp", "int memory = mended; // history, the theme\n"), [])

    def test_an_exception_holds_for_its_file_and_word_only(self):
        self.assertEqual(found("tests/client/manual_test.cpp", '"he" // his\n'), ["his"])
        self.assertEqual(found("tests/client/other_test.cpp", '"he"\n'), ["he"])

    def test_code_in_the_list_of_mistakes_belongs_to_its_room(self):
        self.assertEqual(found(check_words.MISTAKES, "rule It tells.\nwas memo\nnow told\n"),
                         ["tells"])

    def test_a_room_is_two_folders_deep_and_a_page_is_a_room(self):
        for name, room in (("daemon/client/help.cpp", "daemon/client"), ("daemon/main.cpp", "daemon/*"),
                           ("plugins/canning/run/log.cpp", "plugins/canning"),
                           ("docs/cost.md", "docs/cost.md"), ("README.md", "README.md")):
            self.assertEqual(check_words.room_of(name), room)


GLOSSARY = "| word | what it is | not this word |\n|---|---|---|\n" \
           "| reserve | To keep stock. | set aside, promise |\n| run log | Lines. | run.turn |\n"


class Names(unittest.TestCase):
    words = check_names.unwanted_words(GLOSSARY)

    def faults(self, method: dict) -> set[str]:
        return check_names.faults_in_names({"methods": [method]}, self.words)["canning"]

    @staticmethod
    def method(name="stock.list", params=(), result=None) -> dict:
        return {"name": name, "x-provider": "canning", "params": list(params),
                "result": {"schema": result or {}}}

    def test_the_glossary_is_read(self):
        self.assertEqual(self.words, {"set aside": "reserve", "promise": "reserve",
                                      "run.turn": "run log"})

    def test_a_method_of_that_name_is_found_whole(self):
        self.assertEqual(len(self.faults(self.method("run.turn"))), 1)
        self.assertEqual(len(self.faults(self.method("run.turns"))), 0)
        self.assertEqual(len(self.faults(self.method("stock.set_aside"))), 1)

    def test_a_field_is_found_however_deep(self):
        within = {"type": "array", "items": {"properties": {"promise_day": {}}}}
        for method in (self.method(params=[{"name": "promise", "schema": {}}]),
                       self.method(params=[{"name": "lots", "schema": within}]),
                       self.method(result={"properties": {"all": within}}),
                       self.method(result={"additionalProperties": {"properties": {"promise": {}}}})):
            self.assertEqual(len(self.faults(method)), 1)
        self.assertEqual(self.faults(self.method(params=[{"name": "promised", "schema": {}}])), set())

    def test_help_that_names_no_command_is_found(self):
        texts = {"shelf": "Usage: barm help shelf\n\nType `barm stock\nlist` or `barm stock lst`."}
        self.assertEqual(check_names.faults_in_help({"stock.list"}, texts),
                         ["barm help shelf: there is no command 'stock lst'"])
        more = {"more": "Usage: barm help more\n\nMore.\n\nMore\n  tea make  Makes tea\n\n`x`\n"}
        self.assertEqual(len(check_names.faults_in_help({"tea.make"}, more)), 1)


if __name__ == "__main__":
    unittest.main()
