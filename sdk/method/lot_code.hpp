// The code of a lot: short enough to write on a lid, safe against a slip of the pen.
#pragma once

#include "sdk/method/field.hpp"

#include <compare>
#include <cstdint>
#include <string>

namespace barmkeep {

/// A letter for the class of the good, the lot's number in the cellar, and a check letter:
/// `J14M`.  The check letter catches every single wrong digit and every swap of two neighbouring
/// digits (weights modulo 23, a prime above all of them); the letters I, O and Q are never used as
/// check letters, for they look like digits or each other on a wet lid.
///
/// Case does not matter in reading; printing is upper case.
class LotCode {
public:
    LotCode() = default;
    /// REQUIRES: letter in A..Z, number >= 1.
    LotCode(char letter, std::int64_t number);

    [[nodiscard]] char letter() const noexcept { return letter_; }
    [[nodiscard]] std::int64_t number() const noexcept { return number_; }
    auto operator<=>(const LotCode&) const = default;

private:
    char letter_ = 'X';
    std::int64_t number_ = 0;
};

/// "J14M".
[[nodiscard]] std::string to_text(const LotCode& code);
/// Throws std::invalid_argument that says whether the form or the check letter is wrong.
[[nodiscard]] LotCode parse_lot_code(std::string_view text);

/// Whether a text has a code's form: a letter, a number, a letter, which may not fit.
[[nodiscard]] bool has_form_of_lot_code(std::string_view text);

template <>
struct Codec<LotCode> {
    static std::optional<LotCode> read(const json::value& value, ParseContext& reading);
    static json::value write(const LotCode& value) { return json::value(to_text(value)); }
    static json::object schema(Direction) { return {{"type", "string"}, {"x-kind", "lot"}}; }
};

extern template struct detail::MemberOperations<LotCode>;
extern template struct detail::MemberOperations<std::optional<LotCode>>;

} // namespace barmkeep
