#include "daemon/ledger/ledger.hpp"

#include "daemon/ledger/cellar.hpp"
#include "daemon/ledger/copies.hpp"
#include "daemon/ledger/feed.hpp"
#include "daemon/ledger/methods.hpp"
#include "daemon/ledger/schema.hpp"
#include "daemon/ledger/store_error.hpp"

#include <fmt/format.h>

namespace barmkeep::ledger {

struct Ledger::Rooms {
    explicit Rooms(const Clock& at) : clock{at} {}

    const Clock& clock;
    std::filesystem::path file;
    std::shared_ptr<spdlog::logger> log;
    std::shared_ptr<Feed> feed = std::make_shared<Feed>();
    std::shared_ptr<Readers> readers;
    std::shared_ptr<Writer> writer;

    std::mutex mutex;
    std::function<void(const contract::Event&)> on_event;
    std::function<void(const std::string&)> on_fatal;

    void committed(const std::vector<contract::Event>& events) {
        feed->publish(events);
        std::function<void(const contract::Event&)> listener;
        {
            const std::lock_guard lock{mutex};
            listener = on_event;
        }
        if (listener)
            for (const auto& event : events)
                listener(event);
    }
    void fatal(const std::string& why) {
        std::function<void(const std::string&)> listener;
        {
            const std::lock_guard lock{mutex};
            listener = on_fatal;
        }
        if (listener)
            listener(why);
    }
};

namespace {

/// Opens the writing connection on a file that is checked and up to date.
std::unique_ptr<Store> open_store(const Store::Options& options, spdlog::logger& log) {
    auto store = std::make_unique<Store>(options);
    (void)schema_version_of(*store); // before anything in a foreign file is changed
    store->keep_log();
    std::string found;
    store->each("PRAGMA quick_check(1)", {}, [&](const Row& row) { take_row(row, found); });
    if (found != "ok")
        throw StoreError(StoreErrorCode::damaged, "quick_check: " + found);
    const int before = migrate(*store);
    if (before != schema_version_newest())
        log.info("the ledger's tables were brought from version {} to {}", before,
                 schema_version_newest());
    return store;
}

Error named(const Error& error, const std::filesystem::path& file) {
    auto faults = error.faults();
    faults.front().message = fmt::format("{}: {}", file.string(), faults.front().message);
    return {error.kind(), std::move(faults)};
}

} // namespace

Ledger::Ledger(Options options, executor::Executor& executor, const Clock& clock,
               std::shared_ptr<spdlog::logger> log)
    : rooms_{std::make_unique<Rooms>(clock)} {
    Rooms& rooms = *rooms_;
    rooms.log = log;
    rooms.file = prepare_file(options.file);
    Store::Options opening{rooms.file, false, options.vfs, options.pages_max};
    try {
        auto store = open_store(opening, *log);
        opening.read_only = true;
        rooms.readers = std::make_shared<Readers>(opening, options.readers, executor, clock);
        const Writer::Limits limits{options.batch_count_max, options.batch_bytes_max,
                                    options.batch_time_max, options.queue_max, options.events_kept};
        rooms.writer = std::make_shared<Writer>(
            std::move(store), clock, limits, log,
            [&rooms](const std::vector<contract::Event>& events) { rooms.committed(events); },
            [&rooms](const std::string& why) { rooms.fatal(why); });
    } catch (const StoreError& fault) {
        throw named(error_of(fault), rooms.file);
    } catch (const Error& error) {
        throw named(error, rooms.file);
    }
}

Ledger::~Ledger() {
    stop();
}

void Ledger::add_methods(MethodTable& table) {
    Methods methods{table, rooms_->writer, rooms_->readers, rooms_->log};
    add_sheets(methods);
    add_goods(methods);
    add_lots(methods);
    add_stock(methods);
    add_entries(methods);
    add_brews(methods);
    add_reminders(methods);
    add_records(methods);
    add_prices(methods);
    add_equipment(methods);
    add_cellar(methods);
    add_keys(methods);
    add_copies(methods);
    add_event_post(methods);
    add_batch(methods);
    Feed::add_methods(methods, rooms_->feed);
}

void Ledger::on_event(std::function<void(const contract::Event&)> listener) {
    const std::lock_guard lock{rooms_->mutex};
    rooms_->on_event = std::move(listener);
}

void Ledger::on_fatal(std::function<void(const std::string&)> listener) {
    const std::lock_guard lock{rooms_->mutex};
    rooms_->on_fatal = std::move(listener);
}

void Ledger::note_time() {
    Writer::Request request;
    request.method = "the day's beginning";
    // The time of the call, not of the commit: a manual clock may be set on before that.
    request.work = [now = rooms_->clock.now()](Transaction& transaction, const Call&) {
        note_day(transaction, now);
        return json::value(nullptr);
    };
    try {
        rooms_->writer->post(std::move(request));
    } catch (const Error& error) {
        rooms_->log->debug("the day was not noted: {}", error.what()); // the next call will
    }
}

void Ledger::stop() {
    rooms_->readers->stop();
    rooms_->writer->stop();
}

void Ledger::restore(const std::filesystem::path& backup, const std::filesystem::path& file) {
    put_in_place(backup, file);
}

int Ledger::schema_version() const noexcept {
    return schema_version_newest();
}

const std::filesystem::path& Ledger::file() const noexcept {
    return rooms_->file;
}

std::int64_t Ledger::commits() const noexcept {
    return rooms_->writer->commits();
}

} // namespace barmkeep::ledger
