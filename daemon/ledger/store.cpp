#include "daemon/ledger/store.hpp"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>
#include <SQLiteCpp/Statement.h>
#include <cassert>
#include <cerrno>
#include <sqlite3.h>

namespace barmkeep::ledger {
namespace {

constexpr int busy_milliseconds = 5000;
constexpr int text_bytes_max = 64 << 20; // a stored answer may hold many records
constexpr int copy_pages_a_step = 256;

StoreErrorCode code_of(int code) {
    switch (code & 0xff) {
    case SQLITE_FULL:
        return StoreErrorCode::full;
    case SQLITE_IOERR:
    case SQLITE_PROTOCOL:
        return StoreErrorCode::input_output;
    case SQLITE_READONLY:
        return StoreErrorCode::read_only;
    case SQLITE_CORRUPT:
        return StoreErrorCode::damaged;
    case SQLITE_NOTADB:
        return StoreErrorCode::not_a_database;
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
        return StoreErrorCode::cannot_open;
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return StoreErrorCode::busy;
    case SQLITE_CONSTRAINT:
        return StoreErrorCode::rule;
    default:
        return StoreErrorCode::other;
    }
}

StoreErrorCode code_of(const SQLite::Exception& error) {
    // A disk that the system mounted read-only under an open file fails each write with EROFS, for
    // which SQLite has no result of its own.
    if (error.getExtendedErrorCode() == SQLITE_IOERR_WRITE && errno == EROFS)
        return StoreErrorCode::read_only;
    return code_of(error.getErrorCode());
}

/// Runs `work` and turns the library's exception into ours.
template <class Work>
auto guarded(Work work) {
    errno = 0; // so that what is there afterwards is the work's
    try {
        return work();
    } catch (const SQLite::Exception& error) {
        throw StoreError(code_of(error), std::string(error.what()) + " (SQLite result " +
                                             std::to_string(error.getExtendedErrorCode()) + ")");
    }
}

void bind(SQLite::Statement& statement, int at, const Value& value) {
    if (const auto* number = std::get_if<std::int64_t>(&value))
        statement.bind(at, *number);
    else if (const auto* real = std::get_if<double>(&value))
        statement.bind(at, *real);
    else if (const auto* text = std::get_if<std::string>(&value))
        statement.bind(at, *text);
    else
        statement.bind(at);
}

int open_flags(const Store::Options& options) {
    const int access = options.read_only ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE;
    return access | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_NOFOLLOW | SQLITE_OPEN_EXRESCODE;
}

void configure(sqlite3* handle, int option, int value) {
    if (sqlite3_db_config(handle, option, value, nullptr) != SQLITE_OK)
        throw StoreError(StoreErrorCode::other, "SQLite refused a safety setting");
}

} // namespace

/// Takes a prepared statement out of the store for as long as it is used, so that a statement may
/// be run while another run of the same text is still handing out rows.
class Store::Borrowed {
public:
    Borrowed(Store& store, std::string_view text) : store_{store}, text_{text} {
        const auto known = store.statements_.find(text);
        if (known != store.statements_.end() && known->second)
            statement_ = std::move(known->second);
        else
            statement_ = std::make_unique<SQLite::Statement>(*store.database_, text_);
    }
    ~Borrowed() {
        if (statement_->tryReset() == SQLITE_OK)
            statement_->clearBindings();
        store_.statements_[text_] = std::move(statement_);
    }
    Borrowed(const Borrowed&) = delete;
    Borrowed& operator=(const Borrowed&) = delete;
    SQLite::Statement& operator*() { return *statement_; }
    SQLite::Statement* operator->() { return statement_.get(); }

private:
    Store& store_;
    std::string text_;
    std::unique_ptr<SQLite::Statement> statement_;
};

Value Row::value(int column) const {
    const SQLite::Column cell = statement_.getColumn(column);
    if (cell.isInteger())
        return std::int64_t{cell.getInt64()};
    if (cell.isFloat())
        return cell.getDouble();
    if (cell.isText())
        return cell.getString();
    return nullptr;
}

Store::Store(const Options& options) {
    assert(options.file.is_absolute()); // a name that begins with "file:" would be read as a URI
    guarded([&] {
        database_ = std::make_unique<SQLite::Database>(options.file.string(), open_flags(options),
                                                       busy_milliseconds, options.vfs);
        harden(options);
    });
}

Store::~Store() {
    statements_.clear(); // statements go before the connection that made them
}

void Store::harden(const Options& options) {
    sqlite3* handle = database_->getHandle();
    // SQLite falls back to reading where it may not write; a ledger that cannot record must not
    // run.
    if (!options.read_only && sqlite3_db_readonly(handle, "main") != 0)
        throw StoreError(StoreErrorCode::read_only, "opened for reading only");
    configure(handle, SQLITE_DBCONFIG_DEFENSIVE, 1);
    configure(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0);
    configure(handle, SQLITE_DBCONFIG_DQS_DML, 0);
    configure(handle, SQLITE_DBCONFIG_DQS_DDL, 0);
    configure(handle, SQLITE_DBCONFIG_ENABLE_FKEY, 1);
    configure(handle, SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0);
    configure(handle, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, options.read_only ? 1 : 0);
    sqlite3_limit(handle, SQLITE_LIMIT_ATTACHED, 0);
    sqlite3_limit(handle, SQLITE_LIMIT_LENGTH, text_bytes_max);
    database_->exec("PRAGMA cell_size_check = ON; PRAGMA mmap_size = 0");
    if (options.read_only)
        database_->exec("PRAGMA query_only = ON; PRAGMA wal_autocheckpoint = 0");
    else if (options.pages_max > 0)
        database_->exec("PRAGMA max_page_count = " + std::to_string(options.pages_max));
}

void Store::keep_log() {
    guarded([&] {
        const auto mode = database_->execAndGet("PRAGMA journal_mode = WAL").getString();
        if (mode != "wal")
            throw StoreError(StoreErrorCode::other, "the file system allows no write-ahead log");
        database_->exec("PRAGMA synchronous = FULL");
    });
}

void Store::script(const std::string& statements) {
    guarded([&] { database_->exec(statements); });
}

std::int64_t Store::run(std::string_view statement, const std::vector<Value>& parameters) {
    each(statement, parameters, [](const Row&) {});
    return database_->getChanges();
}

void Store::each(std::string_view statement, const std::vector<Value>& parameters,
                 const std::function<void(const Row&)>& take) {
    guarded([&] {
        Borrowed borrowed{*this, statement};
        int at = 0;
        for (const auto& parameter : parameters)
            bind(*borrowed, ++at, parameter);
        while (borrowed->executeStep())
            take(Row{*borrowed});
    });
}

bool Store::holds_transaction() const noexcept {
    return sqlite3_get_autocommit(database_->getHandle()) == 0;
}

std::int64_t Store::last_number() const noexcept {
    return database_->getLastInsertRowid();
}

void Store::checkpoint() {
    script("PRAGMA wal_checkpoint(TRUNCATE)");
}

void copy_store(Store& from, const std::filesystem::path& to,
                const std::function<void(int, int)>& step) {
    guarded([&] {
        SQLite::Database copy{to.string(),
                              SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOFOLLOW | SQLITE_OPEN_EXRESCODE};
        {
            SQLite::Backup backup{copy, from.database()};
            int outcome = SQLITE_OK;
            while ((outcome = backup.executeStep(copy_pages_a_step)) == SQLITE_OK)
                step(backup.getTotalPageCount() - backup.getRemainingPageCount(),
                     backup.getTotalPageCount());
            if (outcome != SQLITE_DONE)
                throw StoreError(code_of(outcome), "the copy could not go on");
        }
        copy.exec("PRAGMA journal_mode = DELETE");
    });
}

} // namespace barmkeep::ledger
