// One spoiled jar speaks against its whole run.
#pragma once

#include "plugins/canning/run/records.hpp"

namespace barmkeep::canning {

/// Adds to a batch what follows from jars of `lot` found with a sign of spoilage: a line in the log
/// of its run, and holds on all other jars of the run; after a second spoiled jar holds that never
/// end. `gone` jars of the lot leave stock in the same batch. Nothing for a lot of no run.
void add_spoiled(Batch& batch, const Context& context, const Call& call, const contract::Lot& lot,
                 std::int64_t gone, const std::string& reason);

/// The lots that are on hold for it, read back from the log as it was after the batch.
[[nodiscard]] std::vector<LotCode> held_for(const Run& run);

} // namespace barmkeep::canning
