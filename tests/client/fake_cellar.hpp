// The core's methods as a fake daemon answers them: enough to see what the client does with them.
#pragma once

#include "tests/client/fake_daemon.hpp"

namespace barmkeep::test {

/// All methods of the contract described; those below answered, the others with `unavailable`.
///   cellar.show, cellar.glance, stock.list, stock.buy (once for each key), good.list, brew.list,
///   reminder.list, brew.plan, equipment.remove, service.status, ledger.backup (with progress),
///   demo.slow (waits to be cancelled).
void add_fake_cellar(MethodTable& table);

/// The cellar it shows, on 2026-03-14.
[[nodiscard]] contract::Glance sample_glance();

} // namespace barmkeep::test
