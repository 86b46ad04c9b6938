// A cellar for a test: a ledger in a folder of its own, a clock that stands still, a caller.
#pragma once

#include "daemon/ledger/ledger.hpp"
#include "daemon/ledger/store.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace barmkeep::ledger {

/// A folder that goes with the test; in memory where the machine has such a place.
class Folder {
public:
    Folder();
    ~Folder();
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    [[nodiscard]] std::filesystem::path file(const std::string& name) const { return path_ / name; }
    [[nodiscard]] const std::filesystem::path& path() const noexcept { return path_; }

private:
    std::filesystem::path path_;
};

[[nodiscard]] std::shared_ptr<spdlog::logger> silent_log();
/// Every row of every table as text, for comparing before and after.
[[nodiscard]] std::string dump(const std::filesystem::path& file);

/// An opened ledger and its methods.
class Cellar {
public:
    explicit Cellar(const std::filesystem::path& file) : Cellar(Ledger::Options{.file = file}) {}
    explicit Cellar(const Ledger::Options& options,
                    const std::shared_ptr<spdlog::logger>& log = silent_log());

    /// The result of a call; a test failure if it is refused.
    json::object does(std::string_view method, const json::object& params = {});
    json::object does(const Call& call, std::string_view method, const json::object& params = {});
    /// The error of a call that must be refused.
    Error refusal(std::string_view method, const json::object& params = {});
    Error refusal(const Call& call, std::string_view method, const json::object& params = {});
    /// Params that undo an entry, with its kind as the journal has it.
    [[nodiscard]] json::object undoing(const json::value& entry);
    [[nodiscard]] Outcome outcome(const Call& call, std::string_view method,
                                  const json::object& params);

    [[nodiscard]] std::string dumped() const { return dump(ledger.file()); }
    /// Whether ledger.check finds nothing.
    [[nodiscard]] bool is_sound();

    ManualClock clock{parse_instant("2026-03-14T10:00:00Z")};
    executor::Executor executor{{.threads = 4}};
    Ledger ledger;
    MethodTable table{clock};
    Call anna;
};

[[nodiscard]] Call caller(const std::string& name, Access access, const std::string& plugin = "");

/// A test with one cellar that knows a few goods: "dry extract" and "liquid extract" (by mass),
/// "lids" and "pint jar" (by pieces), "wort" (concentrate, by pieces).
class CellarTest : public ::testing::Test {
protected:
    CellarTest();

    /// Buys and answers the new lot's code.
    std::string buy(const std::string& good, const json::value& amount, const std::string& paid,
                    const json::object& more = {});
    json::object lot(const std::string& code) { return cellar.does("lot.show", {{"lot", code}}); }
    /// How much of a lot is on hand, in its wire unit.
    double on_hand(const std::string& code);
    std::string value(const std::string& code);
    std::int64_t plan(const std::string& day = "2026-03-20", const std::string& name = "stout");

    Folder folder;
    Cellar cellar{folder.file("cellar.db")};
};

/// The text of a member.
[[nodiscard]] std::string text(const json::value& object, std::string_view member);
[[nodiscard]] double quantity(const json::value& object, std::string_view member);

} // namespace barmkeep::ledger
