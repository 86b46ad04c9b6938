// The command for a call: what an action of a sheet prints.
#include "daemon/client/command_text.hpp"
#include "sdk/contract/brew.hpp"
#include "sdk/contract/equipment.hpp"
#include "sdk/contract/stock.hpp"
#include "tests/client/fake_cellar.hpp"

#include <gtest/gtest.h>

namespace barmkeep::barm {
namespace {

class CommandText : public testing::Test {
protected:
    CommandText() {
        MethodTable table;
        test::add_fake_cellar(table);
        catalogue_ = Catalogue{test::discover_document(table)};
    }
    std::string text(std::string_view method, const json::object& params,
                     const std::vector<std::string>& ask = {}) {
        return command_text(catalogue_, method, params, ask);
    }

    Catalogue catalogue_;
};

TEST_F(CommandText, OperandsComeInTheirOrderAndOptionsByName) {
    EXPECT_EQ(text("brew.show", {{"brew", 12}}), "barm brew show 12");
    EXPECT_EQ(text("stock.buy", {{"paid", "18.50"}, {"good", "lids"}, {"amount", 24}}),
              "barm stock buy lids 24 18.50");
    EXPECT_EQ(text("stock.list", {{"all", true}}), "barm stock list --all");
    EXPECT_EQ(text("stock.buy",
                   {{"good", "lids"}, {"amount", 24}, {"paid", "1"}, {"best_by", "2027-01-01"}}),
              "barm stock buy lids 24 1 --best-by 2027-01-01");
}

TEST_F(CommandText, WhatIsStillAskedForStandsInCapitals) {
    EXPECT_EQ(text("stock.buy", {{"good", "lids"}}, {"amount", "paid", "best_by"}),
              "barm stock buy lids AMOUNT PAID --best-by BEST-BY");
}

TEST_F(CommandText, WordsAreQuotedForAShell) {
    EXPECT_EQ(text("stock.list", {{"good", "light dry extract"}}),
              "barm stock list 'light dry extract'");
    EXPECT_EQ(shell_word("brewer's"), "'brewer'\\''s'");
    EXPECT_EQ(shell_word(""), "''");
    EXPECT_EQ(shell_word("4%"), "4%");
    EXPECT_EQ(shell_word("$(rm)"), "'$(rm)'");
}

TEST_F(CommandText, FactsAreOptionsAndListsRepeat) {
    EXPECT_EQ(text("good.add", {{"name", "a"},
                                {"category", "yeast"},
                                {"facts", {{"cells", "100 B"}, {"form", "liquid"}}}}),
              "barm good add a yeast --cells '100 B' --form liquid");
    EXPECT_EQ(
        text("lot.change",
             {{"lot", "J6Y"}, {"clear", json::array{"best_by", "supplier"}}, {"reason", "slip"}}),
        "barm lot change J6Y --reason slip --clear best_by --clear supplier");
}

TEST_F(CommandText, AMethodThatIsNoCommandHereIsWrittenAsItIs) {
    EXPECT_EQ(text("page.show", {{"number", 3}}), "page.show number=3");
}

} // namespace
} // namespace barmkeep::barm
