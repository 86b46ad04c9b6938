#include "sdk/method/lot_code.hpp"

#include <cassert>
#include <cctype>
#include <fmt/format.h>

namespace barmkeep {
namespace {

constexpr std::string_view check_letters = "ABCDEFGHJKLMNPRSTUVWXYZ";
static_assert(check_letters.size() == 23);

char check_letter(char letter, std::int64_t number) {
    // Weights 2, 3, 4 ... from the last digit on.  23 is prime, so for numbers of up to 20 digits
    // no weight, and no difference of two weights or two digits, is a multiple of it.
    std::int64_t sum = letter - 'A';
    std::int64_t weight = 2;
    for (std::int64_t rest = number; rest > 0; rest /= 10)
        sum += rest % 10 * weight++;
    return check_letters[static_cast<std::size_t>(sum % 23)];
}

} // namespace

LotCode::LotCode(char letter, std::int64_t number) : letter_{letter}, number_{number} {
    assert(letter >= 'A' && letter <= 'Z' && number >= 1);
}

std::string to_text(const LotCode& code) {
    return fmt::format("{}{}{}", code.letter(), code.number(),
                       check_letter(code.letter(), code.number()));
}

bool has_form_of_lot_code(std::string_view text) {
    const auto is_letter = [](char c) {
        return std::isalpha(static_cast<unsigned char>(c)) != 0;
    };
    return text.size() >= 3 && text.size() <= 12 && is_letter(text.front()) &&
           is_letter(text.back()) && text[1] != '0' &&
           text.substr(1, text.size() - 2).find_first_not_of("0123456789") ==
               std::string_view::npos;
}

LotCode parse_lot_code(std::string_view text) {
    if (!has_form_of_lot_code(text))
        throw std::invalid_argument(fmt::format(
            "'{}' is not a lot code: a letter, a number and a check letter, such as {}.", text,
            to_text(LotCode{'J', 14})));
    const auto upper = [](char c) {
        return static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    };
    const LotCode code{upper(text.front()), std::stoll(std::string(text.substr(1)))};
    if (check_letter(code.letter(), code.number()) != upper(text.back()))
        throw std::invalid_argument(
            fmt::format("The check letter of lot code '{}' does not fit its number.", text));
    return code;
}

std::optional<LotCode> Codec<LotCode>::read(const json::value& value, ParseContext& reading) {
    const auto* text = value.if_string();
    try {
        if (text != nullptr)
            return parse_lot_code(*text);
        reading.fault("wrong_type", "This must be a lot code.");
    } catch (const std::invalid_argument& error) {
        reading.fault("not_a_lot", error.what(),
                      "Compare the code on the lid with: barm stock list");
    }
    return std::nullopt;
}

template struct detail::MemberOperations<LotCode>;
template struct detail::MemberOperations<std::optional<LotCode>>;

} // namespace barmkeep
