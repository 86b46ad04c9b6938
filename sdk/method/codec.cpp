#include "sdk/method/codec.hpp"

#include "sdk/method/nearest.hpp"

namespace barmkeep {
namespace {

/// UTF-8 was checked by the parser; what is left to refuse are the control characters.
bool has_control_character(std::string_view text) {
    for (const char c : text)
        if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f)
            return true;
    return false;
}

} // namespace

std::optional<bool> Codec<bool>::read(const json::value& value, ParseContext& reading) {
    if (const auto* yes = value.if_bool())
        return *yes;
    reading.fault("wrong_type", "This must be true or false.");
    return std::nullopt;
}

std::optional<std::int64_t> Codec<std::int64_t>::read(const json::value& value,
                                                      ParseContext& reading) {
    if (const auto* whole = value.if_int64())
        return *whole;
    // JSON knows one kind of number: 3.0 is the integer 3.
    constexpr double exact_max = 9007199254740992.0; // 2^53
    if (const auto* number = value.if_double();
        number != nullptr && std::trunc(*number) == *number && std::abs(*number) <= exact_max)
        return static_cast<std::int64_t>(*number);
    reading.fault("wrong_type", "This must be a whole number.");
    return std::nullopt;
}

std::optional<double> Codec<double>::read(const json::value& value, ParseContext& reading) {
    if (value.is_number())
        return value.to_number<double>();
    reading.fault("wrong_type", "This must be a number.");
    return std::nullopt;
}

std::optional<std::string> Codec<std::string>::read(const json::value& value,
                                                    ParseContext& reading) {
    const auto* text = value.if_string();
    if (text == nullptr) {
        reading.fault("wrong_type", "This must be a text.");
        return std::nullopt;
    }
    if (text->size() > length_max) {
        reading.fault("too_long",
                      "The text is too long; the limit is " + std::to_string(length_max) +
                          " bytes.",
                      "Shorten it.");
        return std::nullopt;
    }
    if (has_control_character(*text)) {
        reading.fault("control_character", "The text contains a control character.",
                      "Use one line without tabs.");
        return std::nullopt;
    }
    return std::string(*text);
}

std::optional<json::object> Codec<json::object>::read(const json::value& value,
                                                      ParseContext& reading) {
    if (const auto* object = value.if_object())
        return *object;
    reading.fault("wrong_type", "This must be an object.");
    return std::nullopt;
}

void fault_unknown_word(ParseContext& reading, std::string_view given,
                        const std::vector<std::string>& known) {
    std::string all;
    for (const auto& word : known)
        all += (all.empty() ? "" : ", ") + word;
    std::string hint = "One of: " + all + ".";
    if (const auto near = nearest(given, known))
        hint = "Did you mean " + *near + "? " + hint;
    reading.fault("unknown_word", "'" + std::string(given) + "' is not one of the possible words.",
                  hint);
}

} // namespace barmkeep
