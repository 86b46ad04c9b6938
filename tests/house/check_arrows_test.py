#!/usr/bin/env python3
"""check_arrows.py finds what it is there to find: a check that cannot fail is no check."""
import pathlib
import tempfile
import unittest

import check_arrows


class Arrows(unittest.TestCase):
    def faults(self, name: str, line: str) -> list[str]:
        with tempfile.TemporaryDirectory() as folder:
            root = pathlib.Path(folder)
            file = root / name
            file.parent.mkdir(parents=True)
            file.write_text(line + "\n")
            return check_arrows.faults_of(root, file)

    def test_an_include_along_the_arrows_is_fine(self):
        self.assertEqual(self.faults("daemon/ledger/a.cpp", '#include "sdk/contract/lot.hpp"'), [])
        self.assertEqual(self.faults("plugins/cost/a.cpp", '#include "plugins/cost/b.hpp"'), [])
        self.assertEqual(self.faults("daemon/socket/a.cpp", "#include <boost/asio/read.hpp>"), [])

    def test_an_include_against_the_arrows_is_found_however_it_is_quoted(self):
        for line in ('#include "daemon/ledger/ledger.hpp"', "#include <daemon/ledger/ledger.hpp>",
                     '  #  include "daemon/ledger/ledger.hpp"'):
            self.assertEqual(len(self.faults("sdk/method/a.hpp", line)), 1, line)
        self.assertEqual(len(self.faults("plugins/cost/a.cpp", '#include "plugins/starter/b.hpp"')), 1)
        self.assertEqual(len(self.faults("daemon/ledger/a.cpp", '#include "daemon/host/host.hpp"')), 1)

    def test_a_foreign_library_outside_its_room_is_found(self):
        self.assertEqual(len(self.faults("plugins/cost/a.cpp", "#include <sqlite3.h>")), 1)
        self.assertEqual(len(self.faults("daemon/host/a.cpp", "#include <boost/asio.hpp>")), 1)

    def test_a_path_that_is_not_from_the_root_and_a_room_nobody_knows_are_found(self):
        self.assertEqual(len(self.faults("sdk/method/a.cpp", '#include "json.hpp"')), 1)
        self.assertEqual(len(self.faults("sdk/novelty/a.cpp", "")), 1)


if __name__ == "__main__":
    unittest.main()
