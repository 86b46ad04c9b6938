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

using SchemaSteps = std::vector<SchemaStep>;

/// All steps; the first makes version 1 from nothing.  Until the first release the steps are edited
/// in place, and the file keeps a digest of those it was made with; a step that was released is
/// never edited.
[[nodiscard]] const SchemaSteps& schema_steps();
/// The version this program writes: the number of steps.
[[nodiscard]] int schema_version_newest();

/// The version of an opened file; 0 for an empty one.  Throws Error(unavailable): "not_a_ledger"
/// for another program's database, "database_newer" for one of a later version, "older_draft" for
/// one made by a program that was never released.
[[nodiscard]] int schema_version_of(Store& store, const SchemaSteps& steps = schema_steps());

/// Brings the tables up to the newest version, each step in a transaction of its own.  Answers the
/// version there was.
int migrate(Store& store, const SchemaSteps& steps = schema_steps());

} // namespace barmkeep::ledger
