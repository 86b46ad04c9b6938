// Every method of the ledger that a person calls has a sheet.
#include "tests/ledger/cellar.hpp"

#include <map>

namespace barmkeep::ledger {
namespace {

/// Methods without a sheet, each with its reason.
const std::map<std::string, std::string, std::less<>> without_sheet{
    {"event.post", "for plugins and programs: it answers a number of an event"},
    {"event.stop", "for programs that watch"},
    {"event.watch", "for programs: the client's own `watch` prints events"},
    {"ledger.batch", "for programs: several calls in one transaction"},
    {"ledger.recall", "for programs: the stored answer to a request key"},
    {"record.add", "for plugins: their own records"},
    {"record.put", "for plugins: their own records"},
    {"record.append", "for plugins: their own records"},
    {"record.get", "for plugins: their own records"},
    {"record.list", "for plugins: their own records"},
    {"record.remove", "for plugins: their own records"},
};

TEST_F(CellarTest, EveryMethodThatAPersonCallsHasASheet) {
    for (const auto& row : cellar.table.rows()) {
        const std::string& name = row->description.name;
        EXPECT_EQ(row->description.has_sheet, !without_sheet.contains(name))
            << name << ": give it a sheet in daemon/ledger/sheets, or name it here with the reason";
        EXPECT_EQ(static_cast<bool>(row->sheet), row->description.has_sheet) << name;
    }
}

TEST_F(CellarTest, NoExceptionIsOutOfDate) {
    for (const auto& [name, reason] : without_sheet) {
        EXPECT_NE(cellar.table.find(name), nullptr) << name << " is gone";
        EXPECT_FALSE(reason.empty());
    }
}

} // namespace
} // namespace barmkeep::ledger
