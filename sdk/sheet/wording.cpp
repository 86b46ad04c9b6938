#include "sdk/sheet/wording.hpp"

#include "sdk/sheet/figures.hpp"
#include "sdk/sheet/moments.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace barmkeep::sheet {
namespace {

std::string count_text(const Count& counted) {
    if (counted.number == 0)
        return "no " + counted.many;
    return fmt::format("{} {}", counted.number, counted.number == 1 ? counted.one : counted.many);
}

std::string unknown_text(const UnknownValue& unknown) {
    if (unknown.given.size() != 1)
        return "";
    const json::value& inside = unknown.given.begin()->value();
    if (const auto* text = inside.if_string())
        return std::string(*text);
    return inside.is_number() ? fmt::format("{:.6g}", inside.to_number<double>()) : "";
}

/// Without a writer of commands: "starter.make brew=12", and "flask=..." for what is to be asked.
std::string method_text(const std::string& method, const json::object& params,
                        const std::vector<std::string>& ask) {
    std::string text = method;
    for (const auto& member : params) {
        const bool is_word = member.value().is_string() &&
                             member.value().get_string().find(' ') == json::string::npos;
        text += fmt::format(" {}={}", std::string_view(member.key()),
                            is_word ? std::string(member.value().get_string())
                                    : write_json(member.value()));
    }
    for (const std::string& name : ask)
        text += " " + name + "=...";
    return text;
}

/// Each kind of value, before it is made harmless.
struct Wording {
    const Reader& reader; // NOLINT: lives for one call

    std::string operator()(const std::string& plain) const { return plain; }
    std::string operator()(const Amount& amount) const { return amount_text(amount, reader); }
    std::string operator()(const Quantity& measured) const {
        return quantity_text(measured, reader);
    }
    std::string operator()(const QuantityRange& measured) const {
        return range_text(measured, reader);
    }
    std::string operator()(const Sum& sum) const { return money_text(sum, reader); }
    std::string operator()(const Date& day) const { return day_text(day, reader); }
    std::string operator()(const Instant& instant) const { return instant_text(instant, reader); }
    std::string operator()(const Count& counted) const { return count_text(counted); }
    std::string operator()(const LotCode& code) const { return to_text(code); }
    std::string operator()(const Number& plain) const {
        const auto decimals = static_cast<int>(std::clamp<std::int64_t>(plain.decimals, 0, 6));
        return fixed_text(plain.number, decimals, decimals);
    }
    std::string operator()(const Command& call) const {
        return command_text(call.method, call.params, {}, reader);
    }
    std::string operator()(const Source& key) const { return "[" + key.key + "]"; }
    std::string operator()(const UnknownValue& unknown) const { return unknown_text(unknown); }
};

bool breaks_anywhere(const Value& value) {
    return std::holds_alternative<std::string>(value) || std::holds_alternative<Command>(value) ||
           std::holds_alternative<UnknownValue>(value);
}

/// "on tomorrow" is no English, and a sheet says "on" before a day without knowing how near it is.
void drop_on_before(std::string_view day, std::string& sentence) {
    constexpr std::string_view on = "on ";
    const bool has_on = sentence == on || sentence.ends_with(" on ");
    if (has_on &&
        (day.starts_with("today") || day.starts_with("tomorrow") || day.starts_with("yesterday")))
        sentence.resize(sentence.size() - on.size());
}

bool is_day(const Value& value) {
    return std::holds_alternative<Date>(value) || std::holds_alternative<Instant>(value);
}

} // namespace

std::string plain_text(std::string_view text, const Reader& reader) {
    const std::string shown = harmless(text);
    return reader.unicode ? shown : in_ascii(shown);
}

std::string command_text(const std::string& method, const json::object& params,
                         const std::vector<std::string>& ask, const Reader& reader) {
    return plain_text(reader.command ? reader.command(method, params, ask)
                                     : method_text(method, params, ask),
                      reader);
}

std::string value_text(const Value& value, const Reader& reader) {
    std::string text = plain_text(std::visit(Wording{reader}, value), reader);
    return breaks_anywhere(value) ? text : with_tight_blanks(text);
}

std::string laid_text(const Text& text, const Reader& reader) {
    std::string whole;
    for (const Run& run : text.runs) {
        const std::string said = value_text(run.value, reader);
        if (is_day(run.value))
            drop_on_before(said, whole);
        whole += said;
    }
    return whole;
}

std::string one_line(const Text& text, const Reader& reader) {
    return with_plain_blanks(laid_text(text, reader));
}

std::vector<const Warning*> alarms_of(const std::vector<Block>& blocks) {
    std::vector<const Warning*> alarms;
    for (const Block& block : blocks) {
        const auto* warning = std::get_if<Warning>(&block.content);
        if (warning != nullptr && warning->severity == Severity::alarm)
            alarms.push_back(warning);
        if (const auto* more = std::get_if<More>(&block.content)) {
            const auto inner = alarms_of(more->blocks);
            alarms.insert(alarms.end(), inner.begin(), inner.end());
        }
    }
    return alarms;
}

std::vector<const Caution*> other_cautions(const std::vector<Block>& blocks) {
    std::vector<const Caution*> cautions;
    const auto add = [&](const Caution* caution) {
        const bool is_there =
            std::any_of(cautions.begin(), cautions.end(),
                        [&](const Caution* other) { return other->key == caution->key; });
        if (!is_there || caution->key.empty())
            cautions.push_back(caution);
    };
    for (const Block& block : blocks) {
        const auto* caution = std::get_if<Caution>(&block.content);
        if (caution != nullptr && !caution->here)
            add(caution);
        if (const auto* more = std::get_if<More>(&block.content))
            for (const Caution* inner : other_cautions(more->blocks))
                add(inner);
    }
    return cautions;
}

std::vector<std::size_t> filled_columns(const Table& table) {
    std::vector<std::size_t> filled;
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        if (std::any_of(table.rows.begin(), table.rows.end(), [i](const Row& row) {
                return i < row.cells.size() && !row.cells[i].empty();
            }))
            filled.push_back(i);
    return filled;
}

} // namespace barmkeep::sheet
