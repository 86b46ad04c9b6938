#include "tests/canning/cellar.hpp"

#include <algorithm>

namespace barmkeep::canning {
namespace {

using test::Cellar;
using testing::Contains;
using testing::ElementsAre;
using testing::SizeIs;
using testing::UnorderedElementsAre;

class TraceOnLedger : public Cellar {
protected:
    TraceOnLedger() {
        (void)start();
        process_by_the_book(1);
        sealed_ = seal(1, 5, 2);
        brew_ = call<contract::BrewPlan>({{}, parse_date("2026-03-10"), "stout"}).number;
        OpeningRecord::Params params;
        params.lot = sealed_.lots[0].code;
        params.looked = params.listened = params.smelled = true;
        params.jars = 2;
        params.brew = brew_;
        (void)call<OpeningRecord>(params);
    }

    static std::vector<LotCode> codes(const TraceResult& traced) {
        std::vector<LotCode> all;
        for (const auto& lot : traced.lots)
            all.push_back(lot.lot.code);
        return all;
    }

    RunSealTest::Result sealed_;
    std::int64_t brew_ = 0;
};

TEST_F(TraceOnLedger, AJarLeadsToRunReadingsBagsSuppliersAndBeerInOneCall) {
    const TraceResult traced = call<TraceLot>({sealed_.lots[0].code});
    EXPECT_THAT(codes(traced), Contains(first_bag_));
    EXPECT_THAT(codes(traced), Contains(second_bag_));
    EXPECT_THAT(traced.suppliers, UnorderedElementsAre("Corner shop", "Maltings on the river"));
    ASSERT_THAT(traced.runs, SizeIs(1));
    EXPECT_EQ(std::ranges::count(traced.runs[0].log, LineKind::reading, &LogLine::kind), 6);
    ASSERT_THAT(traced.brews, SizeIs(1));
    EXPECT_EQ(traced.brews[0].name, "stout");
    ASSERT_THAT(traced.uses, SizeIs(1));
    EXPECT_EQ(traced.uses[0].amount, pieces(2));
}

TEST_F(TraceOnLedger, ABagLeadsToAllItsJarsAndBeersInOneCall) {
    const TraceResult traced = call<TraceLot>({first_bag_});
    EXPECT_THAT(codes(traced), ElementsAre(first_bag_, sealed_.lots[0].code, sealed_.lots[1].code));
    EXPECT_THAT(traced.brews, SizeIs(1));
}

/// One bag only, so that a run and a person take from the same lot.
class OfOneBag : public Cellar {
protected:
    OfOneBag() {
        (void)call<contract::StockDiscard>({first_bag_, {}, "mice", {}});
        jars_ = shelved_run().lots.at(0).code;
    }

    /// Jars that a person makes, with a note as the run's own.
    LotCode jars_of_a_person() {
        contract::StockConvert::Params params;
        params.inputs = {{to_text(second_bag_), amount_of(100 * brewing::gram)}};
        contract::ConvertOutput out;
        out.good = "pint of wort";
        out.amount = AmountGiven{pieces(1)};
        params.outputs = {out};
        params.note = "canning run 1";
        return call<contract::StockConvert>(params).lots.at(0).code;
    }
    LotCode jars_;
};

// Found in review: a run knew its jars by the text of a note, which anyone may write.
TEST_F(OfOneBag, AMemoWrittenByAPersonMakesNoJarsOfARun) {
    const LotCode other = jars_of_a_person();
    const auto held = call<RunHold>({1, "a loose lid"}).lots;
    ASSERT_THAT(held, SizeIs(1));
    EXPECT_EQ(held[0].code, jars_);
    EXPECT_THAT(call<TraceLot>({other}).runs, testing::IsEmpty());
    EXPECT_THAT(call<TraceLot>({jars_}).runs, SizeIs(1));
    StorageInspect::Params params;
    params.lot = other;
    EXPECT_EQ(test::error_of([&] { (void)call<StorageInspect>(params); }).reason(), "unknown_run");
}

TEST_F(TraceOnLedger, ABeerLeadsBackToBagsAndSuppliers) {
    const TraceResult traced = call<TraceBrew>({brew_});
    EXPECT_THAT(codes(traced), Contains(second_bag_));
    EXPECT_THAT(traced.runs, SizeIs(1));
    EXPECT_THAT(traced.suppliers, SizeIs(2));
}

} // namespace
} // namespace barmkeep::canning
