#include "sdk/brewing/unit_text.hpp"

#include "sdk/brewing/errors.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <functional>
#include <limits>
#include <optional>
#include <utility>

namespace barmkeep::brewing::unit_text {
namespace {

constexpr std::size_t longest_text = 120;

constexpr bool is_digit(char c) noexcept {
    return c >= '0' && c <= '9';
}
constexpr bool is_space(char c) noexcept {
    return c == ' ' || c == '\t';
}
constexpr char lower(char c) noexcept {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c;
}

struct Fraction {
    std::string_view sign;
    double value;
};
constexpr std::array<Fraction, 9> fraction_signs{{{"½", 1.0 / 2},
                                                  {"¼", 1.0 / 4},
                                                  {"¾", 3.0 / 4},
                                                  {"⅓", 1.0 / 3},
                                                  {"⅔", 2.0 / 3},
                                                  {"⅛", 1.0 / 8},
                                                  {"⅜", 3.0 / 8},
                                                  {"⅝", 5.0 / 8},
                                                  {"⅞", 7.0 / 8}}};

/// Reads from the front of a text.
class Scanner {
public:
    Scanner(std::string_view text, const UnitTable& table)
        : whole_{text}, rest_{text}, table_{table} {}

    [[nodiscard]] bool at_end() {
        skip_spaces();
        return rest_.empty();
    }
    [[nodiscard]] Term term() {
        const double sign = take_sign();
        const double count = number();
        return {sign * count, word()};
    }

private:
    void skip_spaces() {
        while (!rest_.empty() && is_space(rest_.front()))
            rest_.remove_prefix(1);
    }

    double take_sign() {
        skip_spaces();
        for (const std::string_view minus : {"-", "−"})
            if (rest_.starts_with(minus)) {
                rest_.remove_prefix(minus.size());
                return -1.0;
            }
        if (rest_.starts_with("+"))
            rest_.remove_prefix(1);
        return 1.0;
    }

    [[nodiscard]] std::optional<double> take_fraction_sign() {
        for (const Fraction& fraction : fraction_signs)
            if (rest_.starts_with(fraction.sign)) {
                rest_.remove_prefix(fraction.sign.size());
                return fraction.value;
            }
        return std::nullopt;
    }

    /// `1`, `1.5`, `1/2`, `1 1/2`, `1½`.
    double number() {
        if (const auto fraction = take_fraction_sign())
            return *fraction;
        const bool whole_number = starts_whole_number();
        double value = plain();
        if (rest_.starts_with("/"))
            return value / denominator();
        if (whole_number)
            value += fraction_after_whole();
        return value;
    }

    double fraction_after_whole() {
        const std::string_view before = rest_;
        skip_spaces();
        if (const auto fraction = take_fraction_sign())
            return *fraction;
        std::size_t digits = 0;
        while (digits < rest_.size() && is_digit(rest_[digits]))
            ++digits;
        if (digits > 0 && digits < rest_.size() && rest_[digits] == '/') {
            const double numerator = plain();
            return numerator / denominator();
        }
        rest_ = before;
        return 0.0;
    }

    [[nodiscard]] bool starts_whole_number() const {
        std::size_t i = 0;
        while (i < rest_.size() && is_digit(rest_[i]))
            ++i;
        return i > 0 &&
               (i == rest_.size() || (rest_[i] != '.' && rest_[i] != 'e' && rest_[i] != 'E'));
    }

    double denominator() {
        rest_.remove_prefix(1);
        const double value = plain();
        if (value == 0.0)
            throw UnitError{in_quotes(whole_) + " divides by zero", hint(table_)};
        return value;
    }

    /// A decimal number without sign, fraction or comma.
    double plain() {
        if (rest_.empty() || !(is_digit(rest_.front()) || rest_.front() == '.'))
            throw UnitError{in_quotes(whole_) + " does not begin with a number", hint(table_)};
        double value = 0.0;
        const auto [end, fault] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), value);
        if (fault == std::errc::result_out_of_range)
            throw OutOfRange{"the number in " + in_quotes(whole_),
                             tiny(end) ? 0.0 : std::numeric_limits<double>::infinity(),
                             std::numeric_limits<double>::min(),
                             std::numeric_limits<double>::max(),
                             "",
                             "write a smaller number, or choose another unit"};
        if (fault != std::errc{})
            throw UnitError{in_quotes(whole_) + " does not begin with a number", hint(table_)};
        rest_.remove_prefix(static_cast<std::size_t>(end - rest_.data()));
        refuse_comma();
        return value;
    }

    /// Whether the number that ends there was too small, not too large, for a double.
    [[nodiscard]] bool tiny(const char* end) const {
        const std::string_view number{rest_.data(), static_cast<std::size_t>(end - rest_.data())};
        return number.find("e-") != number.npos || number.find("E-") != number.npos;
    }

    void refuse_comma() const {
        if (rest_.size() >= 2 && rest_[0] == ',' && is_digit(rest_[1]))
            throw UnitError{
                in_quotes(whole_) + " has a comma in its number",
                "write decimals with a point, such as 1.5, and thousands without a mark, "
                "such as 1500"};
    }

    /// The unit word: up to the next number, with points dropped and spaces made single.
    std::string word() {
        std::string made;
        skip_spaces();
        while (!rest_.empty() && !begins_number(made)) {
            const char c = rest_.front();
            rest_.remove_prefix(1);
            if (is_space(c) && (made.empty() || made.back() == ' '))
                continue;
            if (c != '.' && c != ',')
                made += is_space(c) ? ' ' : c;
        }
        while (!made.empty() && made.back() == ' ')
            made.pop_back();
        return made;
    }

    /// Whether the rest is the next number of a sum.  A digit that makes a unit of the word before
    /// it, as in cm3 or lb/in2, belongs to the word.
    [[nodiscard]] bool begins_number(std::string_view word_so_far) const {
        if (is_digit(rest_[0]))
            return !known_anywhere(std::string{word_so_far} + rest_[0]);
        if (rest_[0] == '.' || rest_[0] == '-')
            return rest_.size() > 1 && is_digit(rest_[1]);
        for (const Fraction& fraction : fraction_signs)
            if (rest_.starts_with(fraction.sign))
                return true;
        return false;
    }

    [[nodiscard]] static bool known_anywhere(const std::string& word) {
        return std::any_of(unit_tables().begin(), unit_tables().end(),
                           [&](const UnitTable& table) { return find(table, word) != nullptr; });
    }

    std::string_view whole_;
    std::string_view rest_;
    const UnitTable& table_;
};

bool all_one_case(std::string_view word) noexcept {
    bool small = false;
    bool large = false;
    for (const char c : word) {
        small = small || (c >= 'a' && c <= 'z');
        large = large || (c >= 'A' && c <= 'Z');
    }
    return !(small && large);
}

/// Equal but for case; "Mg" is not "mg", because it would be a thousand million times more.
bool alike(std::string_view name, std::string_view word) noexcept {
    if (name.size() != word.size() || name.empty())
        return false;
    for (std::size_t i = 0; i < name.size(); ++i)
        if (lower(name[i]) != lower(word[i]))
            return false;
    const bool prefixed = name.size() <= 4 && lower(name[0]) == 'm' && name.size() > 1;
    return !prefixed || name[0] == word[0] || all_one_case(word);
}

template <class Same>
const UnitRow* find_by(const UnitTable& table, std::string_view word, Same same) noexcept {
    for (const UnitRow& row : table.rows) {
        if (same(row.symbol, word))
            return &row;
        for (const std::string_view name : row.names)
            if (same(name, word))
                return &row;
    }
    return nullptr;
}

std::string with_article(std::string_view kind) {
    const bool vowel = std::string_view{"aeiou"}.find(kind.front()) != std::string_view::npos;
    std::string text{kind == "cells" ? "a count of " : vowel ? "an " : "a "};
    return text.append(kind);
}

} // namespace

std::vector<Term> split(std::string_view text, const UnitTable& table) {
    if (text.size() > longest_text)
        throw UnitError{in_quotes(text) + " is too long for a quantity", hint(table)};
    Scanner scanner{text, table};
    if (scanner.at_end())
        throw UnitError{"a quantity is missing: the text is empty", hint(table)};
    std::vector<Term> terms;
    while (!scanner.at_end())
        terms.push_back(scanner.term());
    return terms;
}

const UnitRow* find(const UnitTable& table, std::string_view word) noexcept {
    if (word.empty())
        return nullptr;
    if (const UnitRow* exact = find_by(table, word, std::equal_to<>{}))
        return exact;
    return find_by(table, word, alike);
}

void refuse_word(std::string_view text, const Term& term, const UnitTable& table) {
    if (term.word.empty())
        throw UnitError{in_quotes(text) + " needs a unit: " + with_article(table.kind) +
                            " is wanted",
                        hint(table)};
    for (const UnitTable& other : unit_tables())
        if (find(other, term.word) != nullptr)
            throw UnitError{in_quotes(text) + " is " + with_article(other.kind) + ", but " +
                                with_article(table.kind) + " is wanted",
                            hint(table)};
    throw UnitError{in_quotes(term.word) + " in " + in_quotes(text) + " is not a known unit of " +
                        std::string{table.kind},
                    hint(table)};
}

std::string hint(const UnitTable& table) {
    std::string text = "write " + with_article(table.kind) + " with its unit, such as ";
    text.append(table.examples).append("; units: ");
    for (const UnitRow& row : table.rows) {
        if (&row != table.rows.data())
            text += ", ";
        text += row.symbol;
    }
    return text;
}

std::string in_quotes(std::string_view text) {
    constexpr std::size_t longest = 40;
    std::size_t end = std::min(text.size(), longest);
    // Never cut inside a UTF-8 sequence: the message goes into JSON.
    while (end > 0 && end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U)
        --end;
    std::string made{"'"};
    return made.append(text.substr(0, end)).append(end < text.size() ? "...'" : "'");
}

} // namespace barmkeep::brewing::unit_text
