// The reader of the published tables, for a test that reads nothing proves nothing.
#include "tests/published/csv.hpp"

#include <gtest/gtest.h>

namespace barmkeep::published {
namespace {

TEST(SplitCsvLine, KeepsCommasAndQuotesInsideQuotes) {
    const std::vector<std::string> fields = split_csv_line(R"(1,"a, ""b""",,last)");
    EXPECT_EQ(fields, (std::vector<std::string>{"1", "a, \"b\"", "", "last"}));
    EXPECT_THROW((void)split_csv_line("\"open"), std::runtime_error);
}

TEST(Row, RefusesUnknownColumnsAndTextForNumbers) {
    const Row row{"here:2", {{"sg", "1.048"}, {"note", "about 1"}, {"none", ""}}};
    EXPECT_DOUBLE_EQ(row.number("sg"), 1.048);
    EXPECT_FALSE(row.has("none"));
    EXPECT_THROW((void)row["plato"], std::runtime_error);
    EXPECT_THROW((void)row.number("note"), std::runtime_error);
    EXPECT_THROW((void)row.number("none"), std::runtime_error);
}

TEST(ReadCsv, RefusesAMissingFile) {
    EXPECT_THROW((void)read_csv("extract/no_such_table.csv"), std::runtime_error);
}

} // namespace
} // namespace barmkeep::published
