// Who did what, and what it was before.
#include "tests/ledger/cellar.hpp"

namespace barmkeep::ledger {
namespace {

class HistoryTest : public CellarTest {
protected:
    json::array history(const std::string& code) {
        return cellar.does("lot.history", {{"lot", code}}).at("changes").as_array();
    }
};

TEST_F(HistoryTest, AnEntryTellsWhoPostedIt) {
    const Call bert = caller("bert", Access::keep);
    const json::object bag{{"good", "dry extract"}, {"amount", "1 kg"}, {"paid", "9"}};
    const auto bought = cellar.does(bert, "stock.buy", bag);
    EXPECT_EQ(text(cellar.does("entry.show", {{"entry", bought.at("entry")}}), "who"), "bert");
    buy("lids", 1, "1");
    const auto entries = cellar.does("entry.list").at("entries").as_array();
    EXPECT_EQ(text(entries.at(0), "who"), "anna");
    EXPECT_EQ(text(entries.at(1), "who"), "bert");
}

TEST_F(HistoryTest, AnEntryThatAPluginPostsForAPersonNamesBoth) {
    buy("lids", 12, "4");
    const Call canning = caller("canning for bert", Access::keep, "canning");
    const auto used = cellar.does(canning, "stock.use", {{"what", "lids"}, {"amount", 1}});
    const auto shown = cellar.does("entry.show", {{"entry", used.at("entry")}});
    EXPECT_EQ(text(shown, "who"), "canning for bert");
    EXPECT_EQ(text(shown, "kind"), "used");
}

TEST_F(HistoryTest, AChangedLotKeepsWhatItWasBefore) {
    const auto code =
        buy("wort", 6, "12",
            {{"best_by", "2027-03-01"}, {"facts", {{"gravity", 1.09}, {"jar", "pint"}}}});
    cellar.clock.set(parse_instant("2026-03-15T08:00:00Z"));
    cellar.does(caller("bert", Access::keep), "lot.change",
                {{"lot", code},
                 {"best_by", "2027-04-01"},
                 {"supplier", "a neighbour"},
                 {"facts", {{"gravity", 1.095}, {"strain", "none"}}},
                 {"reason", "measured again"}});
    const auto changes = history(code);
    ASSERT_EQ(changes.size(), 2U); // the other is that of the helper's lot.vouch
    const auto& change = changes.at(0);
    EXPECT_EQ(text(change, "who"), "bert");
    EXPECT_EQ(text(change, "change"), "changed");
    EXPECT_EQ(text(change, "reason"), "measured again");
    EXPECT_EQ(text(change, "at"), "2026-03-15T08:00:00Z");
    const json::value was{{"best_by", "2027-03-01"},
                          {"supplier", nullptr},
                          {"facts", {{"gravity", 1.09}, {"strain", nullptr}}}};
    const json::value became{{"best_by", "2027-04-01"},
                             {"supplier", "a neighbour"},
                             {"facts", {{"gravity", 1.095}, {"strain", "none"}}}};
    EXPECT_EQ(change.at("was"), was) << write_json(change);
    EXPECT_EQ(change.at("became"), became) << write_json(change);
}

TEST_F(HistoryTest, HoldingAndReleasingAreInTheHistoryNewestFirst) {
    const auto code = buy("wort", 6, "12");
    const auto other = buy("wort", 6, "12");
    cellar.does("lot.hold", {{"lot", code}, {"note", "log not complete"}});
    cellar.does("lot.hold", {{"lot", other}, {"note", "not this one"}});
    cellar.does("lot.release", {{"lot", code}, {"reason", "log found"}});
    const auto changes = history(code);
    ASSERT_EQ(changes.size(), 3U); // the first is that of the helper's lot.vouch
    EXPECT_EQ(text(changes.at(0), "change"), "released");
    EXPECT_EQ(text(changes.at(0).at("was").at("holds").at(0), "note"), "log not complete");
    EXPECT_TRUE(changes.at(0).at("became").at("holds").as_array().empty());
    EXPECT_EQ(text(changes.at(1), "change"), "held");
    EXPECT_TRUE(changes.at(1).at("was").at("holds").as_array().empty());
    EXPECT_EQ(text(changes.at(1).at("became").at("holds").at(0), "note"), "log not complete");
}

TEST_F(HistoryTest, AChangeThatChangesNothingIsKeptWithItsReason) {
    const auto code = buy("wort", 6, "12", {{"best_by", "2027-03-01"}});
    cellar.does("lot.change",
                {{"lot", code}, {"best_by", "2027-03-01"}, {"reason", "looked at the lid"}});
    EXPECT_TRUE(history(code).at(0).at("was").as_object().empty());
}

TEST_F(HistoryTest, TheHistoryComesInPages) {
    const auto code = buy("lids", 6, "12");
    for (const char* reason : {"1", "2", "3"})
        cellar.does("lot.hold", {{"lot", code}, {"note", reason}});
    std::string reasons;
    json::object params{{"lot", code}, {"limit", 2}};
    while (true) {
        const auto page = cellar.does("lot.history", params);
        for (const auto& change : page.at("changes").as_array())
            reasons += text(change, "reason");
        if (!page.contains("next"))
            break;
        reasons += "/";
        params["cursor"] = page.at("next");
    }
    EXPECT_EQ(reasons, "32/1");
    EXPECT_EQ(cellar.refusal("lot.history", {{"lot", to_text(LotCode{'J', 99})}}).reason(),
              "lot_unknown");
}

} // namespace
} // namespace barmkeep::ledger
