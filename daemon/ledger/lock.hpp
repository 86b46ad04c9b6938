// One daemon a cellar.
#pragma once

#include "sdk/system/descriptor.hpp"

#include <filesystem>

namespace barmkeep::ledger {

/// Holds the cellar for one process: an advisory lock on the file beside the ledger whose name is
/// the ledger's with ".lock".  The lock goes with the process, however it ends; the file stays.
class InstanceLock {
public:
    /// Throws Error(unavailable, "in_use") if another process holds it, and Error(unavailable,
    /// "cannot_lock") if the lock file cannot be made.
    explicit InstanceLock(const std::filesystem::path& ledger_file);

private:
    Descriptor handle_;
};

} // namespace barmkeep::ledger
