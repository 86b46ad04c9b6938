// Files made to last: created, synced, renamed.
#pragma once

#include <filesystem>

namespace barmkeep::ledger {

/// The whole path with the links of its folder resolved.  Throws Error(unavailable, "no_folder").
[[nodiscard]] std::filesystem::path prepare_folder(const std::filesystem::path& file);
/// Makes an empty file that its owner alone can read.  A leftover of that name is removed first.
/// Throws Error(unavailable).
void make_new_file(const std::filesystem::path& file);
/// Throws Error(unavailable, "disk_failed") if the disk does not take it.
void sync_file(const std::filesystem::path& file);
void sync_folder(const std::filesystem::path& folder);
/// Gives a finished file its name and syncs the folder.  Throws Error(conflict, "file_exists")
/// rather than replace another.
void move_to_new(const std::filesystem::path& from, const std::filesystem::path& to);

} // namespace barmkeep::ledger
