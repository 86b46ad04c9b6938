#include "daemon/ledger/schema.hpp"

#include "daemon/ledger/binding.hpp"
#include "sdk/method/error.hpp"

#include <fmt/format.h>

namespace barmkeep::ledger {
namespace {

constexpr std::int64_t application_mark = 0x4261726d; // "Barm", in the file's header

std::int64_t number(Store& store, std::string_view statement) {
    std::int64_t answer = 0;
    store.each(statement, {}, [&](const Row& row) { take_row(row, answer); });
    return answer;
}

} // namespace

int schema_version_newest() {
    return static_cast<int>(schema_steps().size());
}

int schema_version_of(Store& store) {
    const auto mark = number(store, "PRAGMA application_id");
    const auto version = number(store, "PRAGMA user_version");
    const auto tables = number(store, "SELECT count(*) FROM sqlite_schema");
    if (tables == 0 && version == 0)
        return 0;
    if (mark != application_mark || version < 1)
        throw Error(ErrorKind::unavailable, "not_a_ledger",
                    "The file is a database of another program.",
                    "Name the cellar's own file in the settings.");
    if (version > schema_version_newest())
        throw Error(ErrorKind::unavailable, "database_newer",
                    fmt::format("The ledger has version {}; this program knows up to {}.", version,
                                schema_version_newest()),
                    "Install the newer program again, or restore a backup made by this one.");
    return static_cast<int>(version);
}

int migrate(Store& store) {
    const int before = schema_version_of(store);
    for (int version = before; version < schema_version_newest(); ++version) {
        store.script("BEGIN IMMEDIATE");
        try {
            store.script(
                std::string(schema_steps().at(static_cast<std::size_t>(version)).statements));
            store.script(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {}",
                                     application_mark, version + 1));
            store.script("COMMIT");
        } catch (...) {
            if (store.holds_transaction())
                store.script("ROLLBACK");
            throw;
        }
    }
    return before;
}

} // namespace barmkeep::ledger
