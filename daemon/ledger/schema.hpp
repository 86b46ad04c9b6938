// The ledger's tables and their versions.
#pragma once

#include "daemon/ledger/store.hpp"

#include <string_view>
#include <vector>

namespace barmkeep::ledger {

/// One step from a version to the next.
struct SchemaStep {
    std::string_view what; ///< for the log
    std::string_view statements;
};

/// All steps; the first makes version 1 from nothing.  A step that was released is never edited.
[[nodiscard]] const std::vector<SchemaStep>& schema_steps();
/// The version this program writes: the number of steps.
[[nodiscard]] int schema_version_newest();

/// The version of an opened file; 0 for an empty one.  Throws Error(unavailable): "not_a_ledger"
/// for another program's database, "database_newer" for one of a later version.
[[nodiscard]] int schema_version_of(Store& store);

/// Brings the tables up to the newest version, each step in a transaction of its own.  Answers the
/// version there was.
int migrate(Store& store);

} // namespace barmkeep::ledger
