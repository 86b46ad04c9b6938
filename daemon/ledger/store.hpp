// SQLite, wrapped once: the only header of the ledger's that stands between it and the library.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>
#include <unordered_map>
#include <variant>
#include <vector>

namespace SQLite {
class Database;
class Statement;
} // namespace SQLite

namespace barmkeep::ledger {

/// What SQLite stores.  `binding.hpp` turns the house's types into it and back.
using Value = std::variant<std::nullptr_t, std::int64_t, double, std::string>;

/// Why the store failed, as far as a caller can act on it.
enum class StoreErrorCode {
    full,           ///< no room on the disk, or the page limit is reached
    input_output,   ///< the disk failed to read, write or sync
    read_only,      ///< the file or its folder may not be written
    damaged,        ///< the file is broken
    not_a_database, ///< the file is something else
    cannot_open,    ///< it is not there, or a symbolic link, or not allowed
    busy,           ///< another program holds it
    rule,           ///< a constraint of the schema was broken
    other,
};

/// The store's own error; `store_error.hpp` turns it into one for the caller.
class StoreError : public std::runtime_error {
public:
    StoreError(StoreErrorCode code, const std::string& message)
        : std::runtime_error(message), code_{code} {}
    [[nodiscard]] StoreErrorCode code() const noexcept { return code_; }

private:
    StoreErrorCode code_;
};

/// One row of an answer; valid only inside the function it is handed to.
class Row {
public:
    explicit Row(SQLite::Statement& statement) : statement_{statement} {}
    [[nodiscard]] Value value(int column) const;

private:
    SQLite::Statement& statement_;
};

/// One connection.  Thread safety: one thread at a time.
///
/// Every connection is hardened alike: foreign keys on, defensive, schema not trusted, no strings
/// in double quotes, no ATTACH, no memory map.  A writing one keeps a write-ahead log and syncs it
/// at each commit; a reading one can neither write nor checkpoint.
class Store {
public:
    struct Options {
        std::filesystem::path file; ///< absolute; its last part may not be a symbolic link
        bool read_only = false;
        std::string vfs{};          ///< a registered VFS of SQLite; empty for the system's
        std::int64_t pages_max = 0; ///< the file may not grow beyond so many pages; 0: no limit
    };

    /// Throws StoreError.  REQUIRES: the file exists (see `prepare_file`).
    explicit Store(const Options& options);
    ~Store();
    Store(const Store&) = delete;
    Store& operator=(const Store&) = delete;

    /// Turns on the write-ahead log.  Apart from opening, so that a file can be looked at first.
    void keep_log();

    /// Runs statements without parameters, several at once.
    void script(const std::string& statements);
    /// Runs one statement; answers how many rows it changed.
    std::int64_t run(std::string_view statement, const std::vector<Value>& parameters = {});
    /// Hands each row of the answer to `take`.
    void each(std::string_view statement, const std::vector<Value>& parameters,
              const std::function<void(const Row&)>& take);

    /// Whether a transaction is open.  SQLite ends it by itself after some failures.
    [[nodiscard]] bool holds_transaction() const noexcept;
    /// The rowid of the last row inserted.
    [[nodiscard]] std::int64_t last_number() const noexcept;
    /// Moves the log into the file and empties it.
    void checkpoint();

    [[nodiscard]] SQLite::Database& database() noexcept { return *database_; }

private:
    struct Hash {
        using is_transparent = void;
        std::size_t operator()(std::string_view text) const {
            return std::hash<std::string_view>{}(text);
        }
    };
    class Borrowed;

    void harden(const Options& options);

    std::unique_ptr<SQLite::Database> database_;
    std::unordered_map<std::string, std::unique_ptr<SQLite::Statement>, Hash, std::equal_to<>>
        statements_;
};

/// Makes the file, readable by its owner alone, if it is not there; answers its path with all
/// symbolic links of its folder resolved.  Throws Error(unavailable) for a file that is a symbolic
/// link or no regular file, and for a folder that is not there.
[[nodiscard]] std::filesystem::path prepare_file(const std::filesystem::path& file);

/// Copies the whole database to a new file, in steps: `step(pages done, pages in all)` is called
/// after each and may throw to end it.  The copy is one file without a log.
/// REQUIRES: `from` is read-only and holds a transaction, so that the copy is of one moment.
void copy_store(Store& from, const std::filesystem::path& to,
                const std::function<void(int, int)>& step);

} // namespace barmkeep::ledger
