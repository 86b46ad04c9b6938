// The house's types as the store keeps them, and back.
//
// Money and instants are integers (millionths, milliseconds), dates are "2026-03-14" so that they
// sort, enumerations are their words, quantities are numbers in the unit they have on the wire.
#pragma once

#include "daemon/ledger/store.hpp"
#include "sdk/method/lot_code.hpp"
#include "sdk/method/money.hpp"
#include "sdk/method/quantity_codecs.hpp"
#include "sdk/method/time.hpp"

namespace barmkeep::ledger {

/// One type's form in the store.  The general one goes by the type's form on the wire, which must
/// be a number or a text.
template <class T>
struct Stored {
    static Value put(const T& value) {
        const json::value wire = Codec<T>::write(value);
        if (wire.is_double())
            return wire.get_double();
        if (wire.is_int64())
            return wire.get_int64();
        return std::string(wire.as_string());
    }
    static T take(const Value& value) {
        const json::value wire =
            std::visit([](const auto& held) { return json::value(held); }, value);
        ParseContext reading;
        auto read = Codec<T>::read(wire, reading);
        if (!read)
            throw StoreError(StoreErrorCode::damaged,
                             "a stored value cannot be read: " + reading.faults().front().message);
        return std::move(*read);
    }
};

template <class Plain, class Held>
Plain held_as(const Value& value) {
    if (const auto* held = std::get_if<Held>(&value))
        return static_cast<Plain>(*held);
    throw StoreError(StoreErrorCode::damaged, "a stored value has another type than it should");
}

template <>
struct Stored<std::int64_t> {
    static Value put(std::int64_t value) { return value; }
    static std::int64_t take(const Value& value) {
        return held_as<std::int64_t, std::int64_t>(value);
    }
};
template <>
struct Stored<std::string> {
    static Value put(const std::string& value) { return value; }
    static std::string take(const Value& value) { return held_as<std::string, std::string>(value); }
};
template <>
struct Stored<std::string_view> {
    static Value put(std::string_view value) { return std::string(value); }
};
template <>
struct Stored<Money> {
    static Value put(Money value) { return value.millionths; }
    static Money take(const Value& value) { return {Stored<std::int64_t>::take(value)}; }
};
template <>
struct Stored<Instant> {
    static Value put(Instant value) {
        return static_cast<std::int64_t>(value.time_since_epoch().count());
    }
    static Instant take(const Value& value) {
        return Instant{std::chrono::milliseconds{Stored<std::int64_t>::take(value)}};
    }
};
template <>
struct Stored<Date> {
    static Value put(Date value) { return to_text(value); }
    static Date take(const Value& value);
};
template <class T>
struct Stored<std::optional<T>> {
    static Value put(const std::optional<T>& value) {
        return value ? Stored<T>::put(*value) : Value{nullptr};
    }
    static std::optional<T> take(const Value& value) {
        if (std::holds_alternative<std::nullptr_t>(value))
            return std::nullopt;
        return Stored<T>::take(value);
    }
};

/// The parameters of a statement.
template <class... T>
std::vector<Value> values(const T&... all) {
    return {Stored<T>::put(all)...};
}

/// Fills variables from a row's columns, in their order.
template <class... T>
void take_row(const Row& row, T&... into) {
    int column = 0;
    ((into = Stored<T>::take(row.value(column++))), ...);
}

/// A row of one column.
template <class T>
T take_one(const Row& row) {
    return Stored<T>::take(row.value(0));
}

} // namespace barmkeep::ledger
