// What is refused: one clear message each, and the ledger is as it was.
#include "tests/ledger/cellar.hpp"

namespace barmkeep::ledger {
namespace {

struct Refused {
    const char* name;
    const char* method;
    json::object params;
    const char* reason;
    const char* pointer;
};

void PrintTo(const Refused& refused, std::ostream* out) {
    *out << refused.name;
}

class RefusalTest : public CellarTest, public ::testing::WithParamInterface<Refused> {};

TEST_P(RefusalTest, IsToldPlainlyAndChangesNothing) {
    const auto code = buy("lids", 10, "3", {{"packed", "2026-01-01"}});
    ASSERT_EQ(code, to_text(LotCode{'L', 1}));
    cellar.does("stock.use", {{"what", "lids"}, {"amount", 1}, {"key", "used key"}});
    cellar.does("entry.undo", {{"entry", 2}, {"kind", "used"}, {"reason", "mistake"}});
    const auto before = cellar.dumped();
    const auto error = cellar.refusal(GetParam().method, GetParam().params);
    EXPECT_EQ(error.faults().size(), 1U) << error.what();
    EXPECT_EQ(error.reason(), GetParam().reason) << error.what();
    EXPECT_EQ(error.faults().front().pointer, GetParam().pointer);
    EXPECT_FALSE(std::string(error.what()).empty());
    EXPECT_EQ(cellar.dumped(), before);
}

json::object buying(const json::value& amount, const json::object& more = {},
                    const char* good = "dry extract") {
    json::object params{{"good", good}, {"amount", amount}, {"paid", "1"}};
    for (const auto& member : more)
        params[member.key()] = member.value();
    return params;
}

const std::string lids_code = to_text(LotCode{'L', 1});

json::object canning(const json::object& output) {
    return {{"inputs", json::array{json::object{{"what", "lids"}, {"amount", 3}}}},
            {"outputs", json::array{output}}};
}

INSTANTIATE_TEST_SUITE_P(
    Each, RefusalTest,
    ::testing::Values(
        Refused{"UnknownUnit", "stock.buy", buying("3 stone of"), "wrong_unit", "/amount"},
        Refused{"FluidOuncesOfAMass", "stock.buy", buying("3 fl oz"), "wrong_unit", "/amount"},
        Refused{"NegativeQuantity", "stock.buy", buying("-1 kg"), "out_of_range", "/amount"},
        Refused{"NoQuantity", "stock.buy", buying(0), "out_of_range", "/amount"},
        Refused{"AbsurdQuantity", "stock.buy", buying("1000000000 kg"), "out_of_range", "/amount"},
        Refused{"HalfALid", "stock.buy", buying(1.5, {}, "lids"), "not_whole", "/amount"},
        Refused{"OuncesOfPieces", "stock.buy", buying("4 oz", {}, "lids"), "wrong_unit", "/amount"},
        Refused{"UsingOuncesOfPieces",
                "stock.use",
                {{"what", "lids"}, {"amount", "4 oz"}},
                "wrong_unit",
                "/amount"},
        Refused{"CannedAfterBestBy", "stock.convert",
                canning({{"good", "wort"},
                         {"amount", 3},
                         {"canned", "2026-03-10"},
                         {"best_by", "2026-03-09"}}),
                "best_by_before", "/outputs/0/best_by"},
        Refused{"ConvertedAfterBestBy", "stock.convert",
                canning({{"good", "wort"}, {"amount", 3}, {"best_by", "2026-03-13"}}),
                "best_by_before", "/outputs/0/best_by"},
        Refused{"BestByBeforeCanningInAChange",
                "lot.change",
                {{"lot", lids_code},
                 {"canned", "2026-03-10"},
                 {"best_by", "2026-03-09"},
                 {"reason", "as written on the lid"}},
                "best_by_before",
                "/best_by"},
        Refused{"CannedTomorrowInAChange",
                "lot.change",
                {{"lot", lids_code}, {"canned", "2026-03-15"}, {"reason", "a slip"}},
                "day_ahead",
                "/canned"},
        Refused{"NegativeSum", "stock.buy", buying("1 kg", {{"paid", "-1"}}), "out_of_range",
                "/paid"},
        Refused{"AbsurdSum", "stock.buy", buying("1 kg", {{"paid", "10000000000"}}), "out_of_range",
                "/paid"},
        Refused{"SumWithAComma", "stock.buy", buying("1 kg", {{"paid", "1,50"}}), "not_money",
                "/paid"},
        Refused{"NoDate", "stock.buy", buying("1 kg", {{"best_by", "2027-02-30"}}), "not_a_date",
                "/best_by"},
        Refused{"DateWithSlashes", "stock.buy", buying("1 kg", {{"best_by", "03/04/2027"}}),
                "not_a_date", "/best_by"},
        Refused{"BestByBeforeBuying", "stock.buy", buying("1 kg", {{"best_by", "2026-03-01"}}),
                "best_by_before", "/best_by"},
        Refused{"PackedTomorrow", "stock.buy", buying("1 kg", {{"packed", "2026-03-15"}}),
                "day_ahead", "/packed"},
        Refused{"BoughtNextWeek", "stock.buy", buying("1 kg", {{"day", "2026-03-21"}}), "day_ahead",
                "/day"},
        Refused{"UnknownGood", "stock.buy", buying("1 kg", {}, "dry extrct"), "good_unknown",
                "/good"},
        Refused{"UnknownField", "stock.buy", buying("1 kg", {{"colour", "amber"}}), "unknown_field",
                "/colour"},
        Refused{"MoreThanThereIs",
                "stock.use",
                {{"what", "lids"}, {"amount", 11}},
                "not_enough",
                "/amount"},
        Refused{"MoreOfALotThanThereIs",
                "stock.use",
                {{"what", lids_code}, {"amount", 11}},
                "not_enough",
                "/amount"},
        Refused{"UsedNextWeek",
                "stock.use",
                {{"what", "lids"}, {"amount", 1}, {"day", "2026-03-21"}},
                "day_ahead",
                "/day"},
        Refused{"ForABrewDayThatIsNone",
                "stock.use",
                {{"what", "lids"}, {"amount", 1}, {"brew", 9}},
                "brew_unknown",
                "/brew"},
        Refused{"CorrectingTwice",
                "entry.undo",
                {{"entry", 2}, {"kind", "used"}, {"reason", "again"}},
                "already_undone",
                "/entry"},
        Refused{"KeyOfAnotherRequest",
                "stock.use",
                {{"what", "lids"}, {"amount", 2}, {"key", "used key"}},
                "key_used",
                "/key"},
        Refused{"LotCodeWithASlipWhereAGoodMayStandToo",
                "stock.use",
                {{"what", "L1Z"}, {"amount", 1}},
                "not_a_lot",
                "/what"},
        Refused{"LotCodeWithASlip",
                "stock.discard",
                {{"lot", "L1Z"}, {"reason", "bent"}},
                "not_a_lot",
                "/lot"}),
    [](const auto& info) { return info.param.name; });

TEST_F(CellarTest, CanningAfterTheBestByThatIsKeptIsRefused) {
    const auto code = buy("wort", 3, "1", {{"day", "2026-02-01"}, {"best_by", "2026-03-01"}});
    const auto before = cellar.dumped();
    const auto error = cellar.refusal(
        "lot.change", {{"lot", code}, {"canned", "2026-03-10"}, {"reason", "found the log"}});
    EXPECT_EQ(error.reason(), "best_by_before");
    EXPECT_EQ(error.faults().front().pointer, "/canned");
    EXPECT_THAT(error.what(), ::testing::HasSubstr("2026-03-01"));
    EXPECT_THAT(error.what(), ::testing::HasSubstr("canned, 2026-03-10"));
    EXPECT_EQ(cellar.dumped(), before);
}

} // namespace
} // namespace barmkeep::ledger
