#include "sdk/method/money.hpp"

#include <cassert>
#include <cstdlib>
#include <fmt/format.h>

namespace barmkeep {
namespace {

// Three digits below the end of int64 in millionths, so that a few sums cannot overflow.
constexpr std::size_t whole_digits_max = 12;

__extension__ using Wide = __int128;

} // namespace

Money share_of(Money whole, std::int64_t part, std::int64_t of) {
    assert(of > 0 && part >= 0 && part <= of);
    const Wide doubled = static_cast<Wide>(whole.millionths) * part * 2;
    const Wide half = whole.millionths < 0 ? -static_cast<Wide>(of) : static_cast<Wide>(of);
    return {static_cast<std::int64_t>((doubled + half) / (static_cast<Wide>(of) * 2))};
}

std::string to_text(Money money) {
    const bool negative = money.millionths < 0;
    const auto magnitude = negative ? 0 - static_cast<std::uint64_t>(money.millionths)
                                    : static_cast<std::uint64_t>(money.millionths);
    std::string text = fmt::format("{}{}.{:06}", negative ? "-" : "", magnitude / 1'000'000,
                                   magnitude % 1'000'000);
    const auto point = text.find('.');
    while (text.size() > point + 3 && text.back() == '0')
        text.pop_back();
    return text;
}

Money parse_money(std::string_view text) {
    const auto refuse = [&](const char* why) -> Money {
        throw std::invalid_argument(fmt::format("'{}' is not a sum of money: {}", text, why));
    };
    const bool negative = !text.empty() && text.front() == '-';
    std::string_view digits = text.substr(negative ? 1 : 0);
    const auto point = digits.find('.');
    const std::string_view whole = digits.substr(0, point);
    const std::string_view part =
        point == std::string_view::npos ? std::string_view{} : digits.substr(point + 1);
    if (digits.find(',') != std::string_view::npos)
        return refuse(
            "write the decimals with a point and nothing between thousands, such as 1250.50.");
    const auto all_digits = [](std::string_view s) {
        return s.find_first_not_of("0123456789") == std::string_view::npos;
    };
    if (whole.empty() || !all_digits(whole) || !all_digits(part) ||
        (point != std::string_view::npos && part.empty()))
        return refuse("write a decimal number in the cellar's currency, such as 18.50.");
    if (part.size() > 6)
        return refuse("it has more than six decimals.");
    if (whole.size() > whole_digits_max)
        return refuse("it is too large.");
    std::int64_t millionths = std::strtoll(std::string(whole).c_str(), nullptr, 10) * 1'000'000;
    std::string padded(part);
    padded.resize(6, '0');
    millionths += std::strtoll(padded.c_str(), nullptr, 10);
    return {negative ? -millionths : millionths};
}

std::optional<Money> Codec<Money>::read(const json::value& value, ParseContext& reading) {
    try {
        if (const auto* text = value.if_string())
            return parse_money(*text);
        // A number is taken as the decimal that it was written as: its shortest text.
        if (value.is_number())
            return parse_money(write_json(value));
        reading.fault("wrong_type", "This must be a sum of money.",
                      "Give it as a text, such as \"18.50\".");
    } catch (const std::invalid_argument& error) {
        reading.fault("not_money", error.what(), "Give it without the currency, such as 18.50.");
    }
    return std::nullopt;
}

json::object Codec<Money>::schema(Direction direction) {
    json::object schema{{"x-kind", "money"}};
    if (direction == Direction::taken)
        schema["type"] = json::array{"string", "number"};
    else
        schema["type"] = "string";
    return schema;
}

template struct detail::MemberOperations<Money>;
template struct detail::MemberOperations<std::optional<Money>>;

} // namespace barmkeep
