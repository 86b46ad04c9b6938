#include "sdk/method/schema_words.hpp"

#include <algorithm>

namespace barmkeep {

std::string text_of(const json::object& object, std::string_view member) {
    const auto* value = object.if_contains(member);
    return value != nullptr && value->is_string() ? std::string(value->get_string()) : "";
}

std::optional<double> number_of(const json::object& object, std::string_view member) {
    const auto* value = object.if_contains(member);
    if (value == nullptr || !value->is_number())
        return std::nullopt;
    return value->to_number<double>();
}

const json::object& schema_at(const json::object& schema, std::string_view member) {
    static const json::object none;
    const auto* value = schema.if_contains(member);
    return value != nullptr && value->is_object() ? value->get_object() : none;
}

bool is_required(const json::object& schema, std::string_view property) {
    const auto* names = schema.if_contains("required");
    const auto* list = names != nullptr ? names->if_array() : nullptr;
    return list != nullptr && std::any_of(list->begin(), list->end(), [&](const auto& name) {
               return name == json::value(property);
           });
}

} // namespace barmkeep
