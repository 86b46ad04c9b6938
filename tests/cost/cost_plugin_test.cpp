// The cost plugin across the boundary, on a fake host.
#include "plugins/cost/cost.hpp"
#include "sdk/plugin/fake_host.hpp"
#include "tests/starter/shelf_of.hpp"

#include <gmock/gmock.h>

namespace barmkeep::cost {
namespace {

TEST(CostOnFakeHost, WrongFieldsAreToldAtOnce) {
    plugin::FakeHost host;
    host.start<Cost>();
    const auto outcome = host.call("cost.jar", {{"what", 5}, {"gravity", "2.0"}, {"jar", "J1"}});
    const auto* error = std::get_if<Error>(&outcome);
    ASSERT_NE(error, nullptr);
    EXPECT_EQ(error->kind(), ErrorKind::params);
    EXPECT_GE(error->faults().size(), 3U);
}

TEST(CostOnFakeHost, AnEmptyCellarIsToldAsSuch) {
    plugin::FakeHost host;
    host.stand_in<contract::StockList>([](const Call&, const contract::StockList::Params&) {
        return contract::StockList::Result{};
    });
    host.start<Cost>();
    for (const auto* method : {"cost.jar", "cost.compare"}) {
        const auto outcome = host.call(method, {});
        ASSERT_TRUE(std::holds_alternative<Error>(outcome));
        EXPECT_EQ(std::get<Error>(outcome).reason(), "no_such_concentrate");
    }
}

TEST(CostOnFakeHost, TheCellarsErrorsReachTheCaller) {
    plugin::FakeHost host;
    host.stand_in<contract::StockList>(
        [](const Call&, const contract::StockList::Params&) -> contract::StockList::Result {
            throw Error(ErrorKind::unavailable, "stopping", "The ledger is closing.");
        });
    host.start<Cost>();
    const auto outcome = host.call("cost.jar", {});
    ASSERT_TRUE(std::holds_alternative<Error>(outcome));
    EXPECT_EQ(std::get<Error>(outcome).reason(), "stopping");
}

} // namespace
} // namespace barmkeep::cost
