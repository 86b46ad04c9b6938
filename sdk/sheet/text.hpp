// Text of a sheet: runs of plain text and typed values.
//
//     Text said = text("Open ", count(2, "jar"), " of ", code, " by ", day);
//
// Texts take the house's own types as they are: Amount, Money, Date, Instant, Seconds, LotCode, the
// quantities of sdk/brewing, Range and Estimate.  They do not take an int or a double: a number
// without its meaning does not compile.
//
// In JSON a text is a string, or a list whose members are strings and typed values (value.hpp).
//
// Thread safety: values; no shared state.
#pragma once

#include "sdk/brewing/estimate.hpp"
#include "sdk/sheet/value.hpp"

#include <concepts>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace barmkeep::sheet {

// What a house type means in a text.

[[nodiscard]] Quantity quantity(brewing::Mass mass);
[[nodiscard]] Quantity quantity(brewing::Volume volume);
[[nodiscard]] Quantity quantity(brewing::Temperature temperature);
[[nodiscard]] Quantity quantity(brewing::TemperatureDifference difference);
[[nodiscard]] Quantity quantity(brewing::GaugePressure pressure);
[[nodiscard]] Quantity quantity(brewing::AbsolutePressure pressure);
[[nodiscard]] Quantity quantity(brewing::Length length);
[[nodiscard]] Quantity quantity(brewing::Energy energy);
[[nodiscard]] Quantity quantity(brewing::Cells cells);
[[nodiscard]] Quantity quantity(brewing::Gravity gravity);
[[nodiscard]] Quantity quantity(Seconds duration);

template <class T>
concept HasQuantity = requires(const T& value) {
    { quantity(value) } -> std::same_as<Quantity>;
};

/// "12 jars".  The plural is the noun with an s unless it is given: count(2, "loss", "losses").
[[nodiscard]] Count count(std::int64_t number, std::string one, std::string many = {});
/// A height above the sea, printed in whole metres or feet.
[[nodiscard]] Quantity altitude(brewing::Length length);
/// 0.78 is printed as "78 %".
[[nodiscard]] Quantity share(double part_of_one);
[[nodiscard]] Number number(double value, int decimals = 0);
/// A sum in a currency; without one, in the cellar's.
[[nodiscard]] Sum money(Money sum, std::string currency = {});
/// A call to name in a sentence: command("lot.show", {{"lot", "J14M"}}).
[[nodiscard]] Command command(std::string_view method, json::object params = {});
[[nodiscard]] Source source(std::string_view key);
/// Several keys with blanks between, as an Estimate or a caution has them.
[[nodiscard]] std::vector<Source> sources(std::string_view keys);
/// A plain range of numbers, or of shares: range(QuantityKind::share, 0.7, 0.8, 0.9).
[[nodiscard]] QuantityRange range(QuantityKind kind, double low, std::optional<double> likely,
                                  double high);

/// A range of the science or of the wire.  Its sources stay behind: add sources(estimate.sources).
template <HasQuantity T>
[[nodiscard]] QuantityRange range(const brewing::Estimate<T>& estimate) {
    return range(quantity(estimate.likely).kind, quantity(estimate.low).number,
                 quantity(estimate.likely).number, quantity(estimate.high).number);
}
template <HasQuantity T>
[[nodiscard]] QuantityRange range(const Range<T>& given) {
    return range(quantity(given.likely).kind, quantity(given.low).number,
                 quantity(given.likely).number, quantity(given.high).number);
}
/// From one quantity to another, with nothing likely between.
template <HasQuantity T>
[[nodiscard]] QuantityRange between(const T& low, const T& high) {
    return range(quantity(low).kind, quantity(low).number, std::nullopt, quantity(high).number);
}

/// One run of a text: a plain text or one typed value.
struct Run {
    Value value;

    Run() = default;
    Run(std::string plain) : value{std::move(plain)} {}           // NOLINT: a run says it itself
    Run(const char* plain) : value{std::string(plain)} {}         // NOLINT
    Run(std::string_view plain) : value{std::string(plain)} {}    // NOLINT
    Run(const json::string& plain) : value{std::string(plain)} {} // NOLINT
    Run(Amount amount) : value{amount} {}                         // NOLINT
    Run(Quantity measured) : value{measured} {}                   // NOLINT
    Run(QuantityRange measured) : value{measured} {}              // NOLINT
    Run(Money sum) : value{Sum{sum, {}}} {}                       // NOLINT
    Run(Sum sum) : value{std::move(sum)} {}                       // NOLINT
    Run(Date day) : value{day} {}                                 // NOLINT
    Run(Instant instant) : value{instant} {}                      // NOLINT
    Run(Count counted) : value{std::move(counted)} {}             // NOLINT
    Run(LotCode code) : value{code} {}                            // NOLINT
    Run(Number plain) : value{plain} {}                           // NOLINT
    Run(Command call) : value{std::move(call)} {}                 // NOLINT
    Run(Source key) : value{std::move(key)} {}                    // NOLINT
    Run(UnknownValue unknown) : value{std::move(unknown)} {}      // NOLINT
    template <HasQuantity T>
    Run(const T& measured) : value{quantity(measured)} {} // NOLINT
    template <HasQuantity T>
    Run(const brewing::Estimate<T>& estimate) : value{range(estimate)} {} // NOLINT
    template <HasQuantity T>
    Run(const Range<T>& given) : value{range(given)} {} // NOLINT
    /// Say what the number is: count(), share(), number(), a quantity.
    template <class T>
    requires std::is_arithmetic_v<T> Run(T)
    = delete;

    bool operator==(const Run&) const = default;
};

/// A sentence, a cell or a heading: runs in their order.  Blanks between them are part of the plain
/// runs.
struct Text {
    std::vector<Run> runs{};

    Text() = default;
    template <class Part>
    requires std::convertible_to<const Part&, Run> Text(const Part& part) {
        append(part);
    } // NOLINT: a text of one run

    /// Whether nothing would be printed: no runs, or only empty plain ones.
    [[nodiscard]] bool empty() const;
    template <class Part>
    requires std::convertible_to<Part, Run> Text& append(Part&& part) {
        runs.emplace_back(std::forward<Part>(part));
        return *this;
    }
    Text& append(const Text& other);
    /// The keys one after the other, with a blank between.
    Text& append(const std::vector<Source>& keys);

    bool operator==(const Text&) const = default;
};

/// A text of parts: whatever makes a Run, other texts, and lists of sources.
template <class... Parts>
[[nodiscard]] Text text(Parts&&... parts) {
    Text whole{};
    (whole.append(std::forward<Parts>(parts)), ...);
    return whole;
}

/// Several values in one sentence: "a", "a and b", "a, b and c".
[[nodiscard]] Text listed(const std::vector<Text>& parts, std::string_view last_word = "and");

} // namespace barmkeep::sheet

namespace barmkeep {

/// A typed value, or a plain text.  A value of an unknown name is read as UnknownValue; so is, when
/// decoding, one whose inside cannot be read.
template <>
struct Codec<sheet::Run> {
    static std::optional<sheet::Run> read(const json::value& value, ParseContext& context);
    static json::value write(const sheet::Run& run);
    static json::object schema(Direction direction);
};

template <>
struct Codec<sheet::Text> {
    static std::optional<sheet::Text> read(const json::value& value, ParseContext& context);
    static json::value write(const sheet::Text& text);
    static json::object schema(Direction direction);
};

extern template struct detail::MemberOperations<sheet::Text>;
extern template struct detail::MemberOperations<std::optional<sheet::Text>>;
extern template struct detail::MemberOperations<std::vector<sheet::Text>>;

} // namespace barmkeep
