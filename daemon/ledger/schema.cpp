#include "daemon/ledger/schema.hpp"

#include "daemon/ledger/binding.hpp"
#include "sdk/method/error.hpp"

#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/uuid_io.hpp>
#include <fmt/format.h>

namespace barmkeep::ledger {
namespace {

constexpr std::int64_t application_mark = 0x6261726b; // "bark", in the file's header

std::int64_t number(Store& store, std::string_view statement) {
    std::int64_t answer = 0;
    store.each(statement, {}, [&](const Row& row) { take_row(row, answer); });
    return answer;
}

/// Digest of the steps up to a version: two drafts of the same version have different ones.
std::string digest_of(const SchemaSteps& steps, int version) {
    std::string text;
    for (int step = 0; step < version; ++step)
        text += steps.at(static_cast<std::size_t>(step)).statements;
    const boost::uuids::name_generator_sha1 digest{boost::uuids::ns::oid()};
    return boost::uuids::to_string(digest(text));
}

void check_draft(Store& store, const SchemaSteps& steps, int version) {
    std::string digest;
    store.each("SELECT digest FROM schema_digest", {},
               [&](const Row& row) { take_row(row, digest); });
    if (digest != digest_of(steps, version))
        throw Error(
            ErrorKind::unavailable, "older_draft",
            fmt::format("The tables of the ledger are an unreleased draft of version {}.", version),
            "Start with a new ledger: set ledger.file to a new file.");
}

} // namespace

int schema_version_newest() {
    return static_cast<int>(schema_steps().size());
}

int schema_version_of(Store& store, const SchemaSteps& steps) {
    const int newest = static_cast<int>(steps.size());
    const auto mark = number(store, "PRAGMA application_id");
    const auto version = number(store, "PRAGMA user_version");
    const auto tables = number(store, "SELECT count(*) FROM sqlite_schema");
    if (tables == 0 && version == 0)
        return 0;
    if (mark != application_mark || version < 1)
        throw Error(ErrorKind::unavailable, "not_a_ledger",
                    "The file is a database of another program.",
                    "Set ledger.file to the file of the cellar.");
    if (version > newest)
        throw Error(
            ErrorKind::unavailable, "database_newer",
            fmt::format(
                "The ledger has schema version {}; this program supports versions up to {}.",
                version, newest),
            "Install the newer program again, or restore a backup that this program made.");
    check_draft(store, steps, static_cast<int>(version));
    return static_cast<int>(version);
}

int migrate(Store& store, const SchemaSteps& steps) {
    const int before = schema_version_of(store, steps);
    for (int version = before; version < static_cast<int>(steps.size()); ++version) {
        store.script("BEGIN IMMEDIATE");
        try {
            store.script(std::string(steps.at(static_cast<std::size_t>(version)).statements));
            store.script(fmt::format("CREATE TABLE IF NOT EXISTS schema_digest "
                                     "(only INTEGER PRIMARY KEY, digest TEXT); "
                                     "INSERT OR REPLACE INTO schema_digest VALUES (1, '{}'); "
                                     "PRAGMA application_id = {}; PRAGMA user_version = {}",
                                     digest_of(steps, version + 1), application_mark, version + 1));
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
