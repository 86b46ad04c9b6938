#include "sdk/method/about.hpp"

#include <algorithm>

namespace barmkeep {

void put_required_first(json::object& schema) {
    const auto* listed = schema.if_contains("required");
    const auto* names = listed != nullptr ? listed->if_array() : nullptr;
    const auto is_required = [&](std::string_view name) {
        return names != nullptr && std::any_of(names->begin(), names->end(), [&](const auto& one) {
                   return one.is_string() && one.get_string() == name;
               });
    };
    const auto* given = schema.if_contains("properties");
    const json::object properties =
        given != nullptr && given->is_object() ? given->get_object() : json::object{};
    json::object ordered;
    for (const bool wanted : {true, false})
        for (const auto& property : properties)
            if (is_required(property.key()) == wanted)
                ordered.emplace(property.key(), property.value());
    schema["properties"] = std::move(ordered);
}

Lane lane_of(const Description& method) noexcept {
    const bool writes = method.effect == Effect::writes;
    const Lane usual = writes ? Lane::write : Lane::look;
    const Lane named = method.lane ? from_string<Lane>(*method.lane).value_or(usual) : usual;
    return named == Lane::log && !writes ? usual : named;
}

json::object named_params(const json::value* params, const Description& method) {
    if (params == nullptr)
        return {};
    if (const auto* object = params->if_object())
        return *object;
    if (!params->is_array())
        throw Error(ErrorKind::params, "wrong_type",
                    "The parameters of a call must be an object or an array.",
                    "Name the parameters, as in {\"name\": value}.");
    const auto* properties = method.params.if_contains("properties");
    static const json::object none;
    const json::object& known = properties != nullptr ? properties->get_object() : none;
    const auto& given = params->get_array();
    if (given.size() > known.size())
        throw Error(ErrorKind::params, "too_many",
                    method.name + " takes at most " + std::to_string(known.size()) +
                        " parameters; " + std::to_string(given.size()) + " were given.",
                    "Name the parameters, as in {\"name\": value}.");
    json::object named;
    auto name = known.begin();
    for (const auto& value : given) {
        named.emplace(name->key(), value);
        ++name;
    }
    return named;
}

} // namespace barmkeep
