// Lists that come in pages: all of them, in the order of the whole, nothing twice.
#include "tests/ledger/cellar.hpp"

namespace barmkeep::ledger {
namespace {

class PagesTest : public CellarTest {
protected:
    /// A list's elements, taken in pages of that many.
    json::array pages(const std::string& method, std::string_view elements, std::int64_t limit,
                      json::object params = {}) {
        params["limit"] = limit;
        json::array all;
        for (;;) {
            const auto page = cellar.does(method, params);
            const auto& some = page.at(elements).as_array();
            EXPECT_LE(some.size(), static_cast<std::size_t>(limit));
            all.insert(all.end(), some.begin(), some.end());
            if (!page.contains("next"))
                return all;
            params["cursor"] = page.at("next");
        }
    }
    void expect_same_in_pages(const std::string& method, std::string_view elements,
                              std::size_t count, const json::object& params = {}) {
        const auto whole = pages(method, elements, 500, params);
        EXPECT_EQ(whole.size(), count);
        for (const std::int64_t limit : {1, 2, 3})
            EXPECT_EQ(pages(method, elements, limit, params), whole) << method << " by " << limit;
    }
};

TEST_F(PagesTest, GoodsComeByNameWhateverTheCase) {
    const auto before = pages("good.list", "all", 500).size();
    for (const char* name : {"agave", "Agar", "aGED malt", "ähre"})
        cellar.does("good.add", {{"name", name}, {"category", "extract"}});
    expect_same_in_pages("good.list", "all", before + 4);
    expect_same_in_pages("good.list", "all",
                         pages("good.list", "all", 500, {{"category", "extract"}}).size(),
                         {{"category", "extract"}});
}

TEST_F(PagesTest, PricesComeByItemAndNewestFirst) {
    for (const char* item : {"can", "Malt"})
        for (const char* day : {"2026-03-01", "2026-03-02"})
            for (const char* where : {"market", "Shop"})
                cellar.does("price.set", {{"item", item},
                                          {"price", "3.50"},
                                          {"day", day},
                                          {"where", std::string(where) + day}});
    cellar.does("price.set", {{"item", "can"}, {"price", "4"}, {"day", "2026-03-02"}});
    expect_same_in_pages("price.list", "prices", 9);
    expect_same_in_pages("price.list", "prices", 5, {{"item", "CAN"}});
}

TEST_F(PagesTest, RemindersComeFirstDueFirst) {
    for (const char* name : {"b", "a", "c", "d"})
        cellar.does("reminder.post", {{"name", name}, {"title", "look"}, {"due", "2026-04-01"}});
    cellar.does("reminder.post", {{"name", "z"}, {"title", "first"}, {"due", "2026-03-31"}});
    cellar.does("reminder.done", {{"name", "c"}});
    cellar.does("reminder.snooze", {{"name", "d"}, {"until", "2026-05-01"}});
    expect_same_in_pages("reminder.list", "reminders", 3);
    expect_same_in_pages("reminder.list", "reminders", 5, {{"all", true}});
    cellar.clock.set(parse_instant("2026-05-01T12:00:00Z"));
    expect_same_in_pages("reminder.list", "reminders", 4); // the one put off is open again
}

TEST_F(PagesTest, ALongNameInAnotherScriptFitsIntoACursor) {
    const Call plugin = caller("canning for anna", Access::keep, "canning");
    std::string name;
    for (int i = 0; i < 119; ++i)
        name += "麦"; // three bytes each
    for (const char* last : {"a", "b"})
        cellar.does(plugin, "record.put",
                    {{"collection", "runs"}, {"name", name + last}, {"document", json::object{}}});
    const auto first = cellar.does(plugin, "record.list", {{"collection", "runs"}, {"limit", 1}});
    const auto second =
        cellar.does(plugin, "record.list",
                    {{"collection", "runs"}, {"limit", 1}, {"cursor", first.at("next")}});
    EXPECT_EQ(text(second.at("records").as_array().at(0).as_object(), "name"), name + "b");
}

TEST_F(PagesTest, ACursorOfAnotherListOrOfNobodyIsRefused) {
    for (const char* name : {"a", "b"})
        cellar.does("reminder.post", {{"name", name}, {"title", "look"}, {"due", "2026-04-01"}});
    const auto next = cellar.does("reminder.list", {{"limit", 1}}).at("next");
    EXPECT_EQ(cellar.refusal("brew.list", {{"cursor", next}}).reason(), "bad_cursor");
    for (const char* made_up : {"x", "AAAAAA", "AAAAAFtd", "not a cursor!"})
        EXPECT_EQ(cellar.refusal("reminder.list", {{"cursor", made_up}}).reason(), "bad_cursor");
}

} // namespace
} // namespace barmkeep::ledger
