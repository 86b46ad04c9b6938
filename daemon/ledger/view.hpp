// What an operation works on: one consistent picture of the ledger, and the right to change it.
#pragma once

#include "daemon/ledger/binding.hpp"
#include "sdk/contract/event.hpp"
#include "sdk/method/clock.hpp"

namespace barmkeep::ledger {

/// A picture of the ledger at one moment.  Thread safety: one thread.
class View {
public:
    View(Store& store, Instant now) : store_{store}, now_{now} {}

    /// The moment at which the request arrived, the same for all that it does.  Entries are
    /// numbered in the order of their commits, so a later one may have an earlier moment.
    [[nodiscard]] Instant now() const noexcept { return now_; }
    /// The cellar's local day at that moment.
    [[nodiscard]] Date today() const { return day_of(now_); }
    /// The cellar's local day at another.
    [[nodiscard]] Date day_of(Instant instant) const;

    /// Every row of the answer, read by `read(const Row&)`.
    template <class Read, class... T>
    auto all(std::string_view statement, Read read, const T&... parameters) const {
        std::vector<std::invoke_result_t<Read, const Row&>> rows;
        store_.each(statement, values(parameters...),
                    [&](const Row& row) { rows.push_back(read(row)); });
        return rows;
    }
    /// The first row, if there is one.
    template <class Read, class... T>
    auto first(std::string_view statement, Read read, const T&... parameters) const {
        std::optional<std::invoke_result_t<Read, const Row&>> found;
        store_.each(statement, values(parameters...), [&](const Row& row) {
            if (!found)
                found = read(row);
        });
        return found;
    }
    /// The number in the one row and column of the answer.
    template <class... T>
    [[nodiscard]] std::int64_t number(std::string_view statement, const T&... parameters) const {
        return first(statement, take_one<std::int64_t>, parameters...).value();
    }
    /// Hands on each row without keeping it, for answers too long to hold.
    template <class... T>
    void each(std::string_view statement, const std::function<void(const Row&)>& take,
              const T&... parameters) const {
        store_.each(statement, values(parameters...), take);
    }

    /// The connection itself, for what copies all of it.
    [[nodiscard]] Store& store() const noexcept { return store_; }

protected:
    Store& store_;

private:
    Instant now_;
};

/// The work of one request in the writer's transaction.
class Transaction : public View {
public:
    Transaction(Store& store, Instant now, std::int64_t events_kept)
        : View{store, now}, events_kept_{events_kept} {}

    template <class... T>
    std::int64_t run(std::string_view statement, const T&... parameters) {
        return store_.run(statement, values(parameters...));
    }
    /// The number of the row last inserted.
    [[nodiscard]] std::int64_t last_number() const noexcept { return store_.last_number(); }

    /// Records an event; it is sent once the transaction is durable.  Answers its number.
    std::int64_t event(std::string_view topic, json::object about);
    std::int64_t event(contract::Topic topic, json::object about) {
        return event(to_string(topic), std::move(about));
    }
    /// The events of this request, in order.
    [[nodiscard]] const std::vector<contract::Event>& events() const noexcept { return events_; }

private:
    std::int64_t events_kept_;
    std::vector<contract::Event> events_;
};

} // namespace barmkeep::ledger
